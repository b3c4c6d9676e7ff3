"""Makes usda_sr28.csv from the release's own files; see README.md beside it.

Run as: ``python extract_sr28.py FOLDER``, the folder holding FOOD_DES.txt and WEIGHT.txt.
"""

import csv
import sys
from collections.abc import Iterator
from pathlib import Path

NDB_NUMBERS = (
    "01123",  # egg
    "09037",  # avocado
    "09150",  # lemon without peel
    "09266",  # pineapple
    "11080",  # beet
    "11090",  # broccoli
    "11109",  # cabbage
    "11124",  # carrot
    "11135",  # cauliflower
    "11143",  # celery
    "11205",  # cucumber
    "11209",  # eggplant
    "11215",  # garlic
    "11246",  # leek
    "11251",  # romaine
    "11260",  # mushroom
    "11282",  # onion
    "11297",  # parsley
    "11333",  # green pepper
    "11352",  # potato
    "11457",  # spinach
    "11485",  # butternut squash
    "11529",  # tomato
    "11677",  # shallot
)
HEADER = ("ndb", "name", "refuse_description", "refuse_percent", "amount", "measure", "grams")


def rows(path: Path) -> Iterator[list[str]]:
    """Fields of each line: latin-1, separated by ^, text quoted by ~."""
    with path.open(encoding="latin-1", newline="") as lines:
        yield from csv.reader(lines, delimiter="^", quotechar="~")


def main(folder: Path) -> None:
    """Write every weight of the chosen foods, one a row."""
    foods = {row[0]: (row[0], row[2], row[7], row[8]) for row in rows(folder / "FOOD_DES.txt")}
    weights = sorted(rows(folder / "WEIGHT.txt"), key=lambda row: (row[0], int(row[1])))
    target = Path(__file__).with_name("usda_sr28.csv")
    with target.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(HEADER)
        for ndb, _, amount, measure, grams, *_ in weights:
            if ndb in NDB_NUMBERS:
                writer.writerow((*foods[ndb], f"{float(amount):g}", measure, f"{float(grams):g}"))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
