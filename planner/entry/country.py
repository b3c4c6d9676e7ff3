"""Put into a kitchen file whose public holidays count."""

from planner.entry.edit import EnteredFile, file_bytes
from planner.kitchen.json_text import parse_document
from planner.kitchen.reading import read_kitchen


def with_country(data: bytes, country: str | None, region: str | None) -> EnteredFile:
    """The file with another country (ISO 3166-1) and region (ISO 3166-2); None: none.

    Raises
    ------
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    kitchen = read_kitchen(data)
    if (kitchen.country, kitchen.region) == (country, region):
        return EnteredFile(data, changed=False)
    file = parse_document(data).values
    for name, value in (("country", country), ("region", region)):
        file.pop(name, None)
        if value is not None:
            file[name] = value
    made = file_bytes(file)
    read_kitchen(made)
    return EnteredFile(made, changed=True)
