"""The cook's page as values: what is at hand, what follows, what is done."""

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act
from tests.web.floor.example import first, floor_sheet, tick
from web.floor.cook import floor_cook_view
from web.presenters.preferences import Preferences

SHEET = floor_sheet()
INES = SHEET.cooks[0]
METRIC = Preferences()


def test_breaks_stand_between_batches_until_they_are_over() -> None:
    early = floor_cook_view(SHEET, INES, Floor(), 400, METRIC)
    texts = [line.away.text if line.away else "" for line in early.following]
    place = next(index for index, text in enumerate(texts) if "Break" in text)
    before, after = early.following[place - 1].job, early.following[place + 1].job
    assert before is not None
    assert after is not None
    assert before.batch.start.time < "09:00" <= after.batch.start.time
    late = floor_cook_view(SHEET, INES, Floor(), 9 * 60 + 20, METRIC)
    assert not [line for line in late.following if line.away and "Break" in line.away.text]


def test_what_is_under_way_is_at_hand_before_what_comes_first() -> None:
    third = INES.batches[2]
    view = floor_cook_view(SHEET, INES, floor_of([tick(Act.BEGUN, third, 425)]), 430, METRIC)
    assert view.current is not None
    assert view.current.batch.number == third.number
    assert view.current.told == "under way since 07:05"
    assert view.heading == "Now"


def test_done_batches_leave_the_list_and_say_when() -> None:
    done = INES.batches[0]
    view = floor_cook_view(SHEET, INES, floor_of([tick(Act.DONE, done, 405)]), 430, METRIC)
    assert [(one.batch.number, one.told) for one in view.done] == [(done.number, "done 06:45")]
    assert done.number not in [line.job.batch.number for line in view.following if line.job]
    assert view.left == str(len(INES.batches) - 1)


def test_lots_that_run_alone_are_ticked_one_by_one() -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    view = floor_cook_view(SHEET, SHEET.cooks[1], Floor(), 400, METRIC)
    assert view.current is not None
    assert [lot.task for lot in view.current.lots] == [task.id for task in roast.tasks]
    onion = floor_cook_view(SHEET, INES, Floor(), 400, METRIC).current
    assert onion is not None
    assert onion.lots == ()
