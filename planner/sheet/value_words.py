"""Words of the kitchen file's closed lists that stand in sentences, for the catalogues to find."""

from planner.wording import sentence

ALLERGENS = (
    sentence("milk"),
    sentence("egg"),
    sentence("fish"),
    sentence("crustacean shellfish"),
    sentence("tree nuts"),
    sentence("peanuts"),
    sentence("wheat"),
    sentence("soybeans"),
    sentence("sesame"),
    sentence("cereals containing gluten"),
    sentence("celery"),
    sentence("mustard"),
    sentence("sulphites"),
    sentence("lupin"),
    sentence("molluscs"),
)
RAW_ANIMALS = (
    sentence("poultry"),
    sentence("beef"),
    sentence("pork"),
    sentence("lamb"),
    sentence("game"),
    sentence("fish"),
    sentence("shellfish"),
    sentence("egg"),
)
REASONS = (sentence("par"), sentence("batch"), sentence("days"))
"""Of what the kitchen makes for itself: ``planner.quantities.types.Reason``."""
