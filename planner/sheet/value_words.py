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
    sentence("raw poultry"),
    sentence("beef"),
    sentence("raw beef"),
    sentence("pork"),
    sentence("raw pork"),
    sentence("lamb"),
    sentence("raw lamb"),
    sentence("game"),
    sentence("raw game"),
    sentence("fish"),
    sentence("raw fish"),
    sentence("shellfish"),
    sentence("raw shellfish"),
    sentence("egg"),
    sentence("raw egg"),
)
REASONS = (sentence("par"), sentence("batch"), sentence("days"))
"""Of what the kitchen makes for itself: ``planner.quantities.types.Reason``."""
ALLERGEN_DUTY = sentence("Allergens: own tools and containers; label; clean and sanitise after.")
"""As pages say it once for all batches, without the names."""
