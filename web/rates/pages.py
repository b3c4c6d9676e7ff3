"""The rates' page as text."""

from collections.abc import Sequence

from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice
from web.rates.view import DecisionView, RatesView


def render_rates(
    view: RatesView,
    *,
    kitchen: str,
    nav: Sequence[Choice],
    address: str,
    version: int,
    decisions: Sequence[DecisionView],
    can_take_back: bool,
    told: str = "",
) -> str:
    """What was learned; ``address`` is the page's path, ``version`` the kitchen file's."""
    return render(
        "chef/rates.html",
        view=view,
        kitchen=kitchen,
        nav=nav,
        address=address,
        version=version,
        decisions=decisions,
        can_take_back=can_take_back,
        told=told,
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )
