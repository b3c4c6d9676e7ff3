"""Makes usda_sr28.csv from the release's own files; see README.md beside it.

Run as: ``python extract_sr28.py FOLDER``, the folder holding FOOD_DES.txt and WEIGHT.txt.
"""

import csv
import sys
from collections.abc import Iterator
from pathlib import Path

NDB_NUMBERS = (
    "01003",  # butter oil
    "01032",  # parmesan, grated
    "01053",  # whipping cream
    "01077",  # milk
    "01123",  # egg
    "01145",  # butter
    "02045",  # dill
    "02046",  # prepared mustard
    "02068",  # red wine vinegar
    "04053",  # olive oil
    "04582",  # canola oil
    "05013",  # chicken meat, roasted
    "06172",  # chicken stock
    "09037",  # avocado
    "09150",  # lemon without peel
    "09152",  # lemon juice
    "09200",  # orange
    "09252",  # pear
    "09266",  # pineapple
    "11052",  # green beans
    "11080",  # beet
    "11081",  # beets, boiled
    "11090",  # broccoli
    "11109",  # cabbage
    "11124",  # carrot
    "11135",  # cauliflower
    "11143",  # celery
    "11205",  # cucumber
    "11209",  # eggplant
    "11215",  # garlic
    "11233",  # kale
    "11246",  # leek
    "11251",  # romaine
    "11260",  # mushroom
    "11282",  # onion
    "11297",  # parsley
    "11333",  # green pepper
    "11352",  # potato
    "11457",  # spinach
    "11485",  # butternut squash
    "11486",  # butternut squash, baked
    "11529",  # tomato
    "11677",  # shallot
    "11957",  # fennel
    "12029",  # sesame seeds, toasted
    "12120",  # hazelnuts
    "12166",  # tahini
    "14096",  # red wine
    "14106",  # white wine
    "14555",  # water
    "15015",  # cod
    "16050",  # white beans, boiled
    "16123",  # soy sauce
    "19335",  # sugar
    "20006",  # pearled barley, cooked
    "20081",  # wheat flour
    "20121",  # pasta, cooked
    "23125",  # boneless short ribs, braised
    "23128",  # boneless short ribs, raw
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
