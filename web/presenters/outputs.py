"""What a batch gives: amounts by component, the cuts they take, the labels on their containers."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.sheet.batch_types import BatchOutput, ContainerLabel, SheetBatch
from web.language import _
from web.presenters.clock import short_date
from web.presenters.cut_words import cut_name
from web.presenters.cuts import CutView, cut_view
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, pieces
from web.presenters.storage import storage_words
from web.presenters.typography import BY
from web.sentences import said


@dataclass(frozen=True, slots=True)
class OutputView:
    """One component's part of a batch."""

    component: str
    name: str
    amount: str


@dataclass(frozen=True, slots=True)
class CutLine:
    """A cut to make; ``amount`` is empty where the whole batch takes it."""

    cut: CutView
    amount: str


@dataclass(frozen=True, slots=True)
class LabelView:
    """What is written on the container."""

    component: str
    made: str
    use_by: str
    allergens: str
    initials: str
    containers: str
    storage: str


def output_views(batch: SheetBatch, preferences: Preferences) -> tuple[OutputView, ...]:
    """Amounts by component; none where the batch gives a single one, which the total covers."""
    if len(batch.outputs) < 2:
        return ()
    return tuple(
        OutputView(output.component, _named(output, batch.outputs), _amount(output, preferences))
        for output in batch.outputs
    )


def cut_lines(batch: SheetBatch, preferences: Preferences) -> tuple[CutLine, ...]:
    """Cuts of the batch; with amounts where they differ."""
    if batch.cut is not None:
        return (CutLine(cut_view(batch.cut), ""),)
    grams: dict[CutView, float] = {}
    for output in batch.outputs:
        if output.cut is not None:
            cut = cut_view(output.cut)
            grams[cut] = grams.get(cut, 0.0) + output.grams
    return tuple(CutLine(cut, mass(total, preferences)) for cut, total in grams.items())


def label_views(batch: SheetBatch) -> tuple[LabelView, ...]:
    """Every label the batch needs, each once."""
    return tuple(_label(label) for label in _labels(batch))


def every_label(batches: Iterable[SheetBatch]) -> str:
    """What all labels of these batches have in common, so that paper says it once on a page.

    Empty where one is made on another day or by another cook: then each label says it.
    """
    marks = {
        _("made %(day)s, %(initials)s", day=short_date(label.made), initials=label.initials)
        for batch in batches
        for label in _labels(batch)
    }
    return marks.pop() if len(marks) == 1 else ""


def _labels(batch: SheetBatch) -> tuple[ContainerLabel, ...]:
    labels = [output.label for output in batch.outputs if output.label is not None]
    if not labels and batch.label is not None:
        labels = [batch.label]
    return tuple(dict.fromkeys(labels))


def _named(output: BatchOutput, outputs: tuple[BatchOutput, ...]) -> str:
    namesakes = sum(other.name == output.name for other in outputs)
    if not output.cut or namesakes < 2:
        return output.name
    return f"{output.name}, {cut_name(output.cut.name).lower()}"


def _amount(output: BatchOutput, preferences: Preferences) -> str:
    weight = mass(output.grams, preferences)
    if output.pieces is None or not output.piece:
        return weight
    return f"{pieces(output.pieces, output.piece)}, {weight}"


def _label(label: ContainerLabel) -> LabelView:
    count = f"{label.containers}{BY}" if label.containers else ""
    return LabelView(
        component=label.component,
        made=short_date(label.made),
        use_by=short_date(label.use_by),
        allergens=", ".join(said(one) for one in label.allergens) or _("none declared"),
        initials=label.initials,
        containers=f"{count}{label.container}" if label.container else "",
        storage=storage_words(label.storage),
    )
