import json

import pytest

from planner.kitchen.reading import KitchenErrors
from service.db.unit_of_work import Database
from service.errors import ConflictError, NotFoundError
from service.usecases.kitchens import kitchen_file, list_kitchens, slug_of, store_kitchen
from tests.service.conftest import NOW
from tests.service.stubs import kitchen_bytes, kitchen_document


def test_a_kitchen_is_kept_byte_for_byte(database: Database) -> None:
    data = json.dumps(kitchen_document(), indent=3).encode()
    stored = store_kitchen(database, data, actor="api", now=lambda: NOW)
    assert (stored.kitchen.slug, stored.kitchen.version, stored.added) == ("test-kitchen", 1, True)
    assert kitchen_file(database, "test-kitchen") == data


def test_a_bad_file_is_refused_with_all_errors_and_nothing_is_stored(database: Database) -> None:
    document = kitchen_document()
    document["services"][0]["covers"] = -1
    document["cooks"][0]["initials"] = "TOO LONG"
    with pytest.raises(KitchenErrors) as caught:
        store_kitchen(database, json.dumps(document).encode(), actor="api", now=lambda: NOW)
    assert {error.path for error in caught.value.errors} == {
        "services[0].covers",
        "cooks[0].initials",
    }
    assert list_kitchens(database) == ()


def test_a_taken_name_is_refused_where_the_kitchen_must_be_new(database: Database) -> None:
    store_kitchen(database, kitchen_bytes(), actor="api", now=lambda: NOW)
    other = kitchen_bytes().replace(b'"covers": 40', b'"covers": 41')
    with pytest.raises(ConflictError, match="PUT the file"):
        store_kitchen(database, other, actor="api", now=lambda: NOW, must_be_new=True)
    assert kitchen_file(database, "test-kitchen") == kitchen_bytes()
    same = store_kitchen(database, kitchen_bytes(), actor="api", now=lambda: NOW, must_be_new=True)
    assert not same.added


def test_a_kitchen_that_is_not_there_is_named(database: Database) -> None:
    with pytest.raises(NotFoundError, match="kitchen: nowhere"):
        kitchen_file(database, "nowhere")


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Café Été & Söhne", "cafe-ete-sohne"),
        ("  ", "kitchen"),
        ("東京", "kitchen"),
        ("A-1", "a-1"),
    ],
)
def test_slugs_are_plain_letters_digits_and_hyphens(name: str, slug: str) -> None:
    assert slug_of(name) == slug
