from planner.sheet.build import build_sheet
from tests.kitchens.plans import planned_kitchen, tiny_plan


def _lines(worker):
    return build_sheet(planned_kitchen(), tiny_plan()).cooks[worker].set_up


def test_every_station_is_set_up_the_same_way_first():
    text = " ".join(_lines(1))
    for words in (
        "damp towel or non-slip feet",
        "honed evenly on both sides",
        "raw, for finished and for waste",
        "Scale on and tared",
        "Sanitiser",
        "hand-wash",
    ):
        assert words in text


def test_what_this_cooks_batches_need_is_listed_once():
    ana = _lines(0)
    assert "Equipment: Stock pot, 2 x Oven tray." in ana
    assert not any(line.startswith("Equipment") for line in _lines(1))


def test_containers_to_fill_are_counted():
    assert "Containers and labels: 3 x sixth pan (Diced onion)." in _lines(1)
