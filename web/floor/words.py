"""What the script on a live page says. ``{name}`` stands for a value."""

from web.language import _


def cook_words() -> dict[str, str]:
    """Words of a cook's live page, in the language of the page."""
    return {
        "all_sent": _("All sent"),
        "one_waits": _("1 waits to be sent"),
        "many_wait": _("{count} wait to be sent"),
        "no_network": _("no network"),
        "not_kept": _("This browser keeps nothing: leave the page open until all is sent"),
        "to_do": _("to do"),
        "under_way": _("under way since {time}"),
        "done": _("done {time}"),
        "lots": _("{done} of {all} lots done"),
        "here": _("above"),
        "started": _("{number} {title}: started {time}"),
        "finished": _("{number} {title}: done {time}"),
        "lot_done": _("{number} {title}: lot {lot} done {time}"),
        "taken_out": _("{title}: taken out {time}"),
        "heard": _("{title}: alarm answered"),
        "reported": _("{number} {title}: problem reported"),
        "weighed": _("{number} {title}: {weight} weighed"),
        "taken_back": _("Taken back: {what}"),
        "undo": _("Undo"),
        "start": _("Start"),
        "start_one": _("Start {number}"),
        "started_at": _("Started {time}"),
        "finish": _("Done"),
        "finish_one": _("Done {number}"),
        "finish_lot": _("Done {number}: {lot} of {all}"),
        "behind": _("{minutes} min behind the plan"),
        "late": _("Late: was to be ready by {time}"),
        "over": _("{minutes} min over"),
        "now": _("now"),
        "refused": _("Not taken: {what}. {message}. {remedy}"),
        "problem": _("Problem"),
        "solved": _("Solved"),
        "because": _("Reported: {reason}"),
        "weight_line": _("{what}: {weight}, weighed {time}"),
        "lots_in": _("{lots} lots"),
        "ready_at": _("ready {time}"),
        "dismiss": _("Read"),
        "now_title": _("Now"),
        "next_title": _("Next"),
        "true_size": _("true size"),
        "about_size": _("about this size"),
        "too_large": _("larger than this screen"),
        "net": _("net {weight}"),
        "no_container": _("another"),
        "tare_over": _("The container weighs as much as the load: weigh both again"),
        "sound_on": _("Sound is on"),
        "sound_tap": _("Sound comes back with your next tap"),
        "sound_off": _("Sound is off"),
        "sound_none": _("This device makes no sound here: listen for the wall"),
        "awake": _("The screen stays on while something runs"),
        "awake_idle": _("The screen may sleep: nothing of yours runs"),
        "awake_none": _("This device may sleep, and then makes no sound: listen for the wall"),
        "other_release": _("The plan has changed (release {release})"),
        "kept_offline": _("Readable without network"),
        "not_kept_offline": _(
            "Without network this page works while it stays open; do not close it before all is "
            "sent"
        ),
    }


def wall_words() -> dict[str, str]:
    """Words of the wall, in the language of the page."""
    return {
        "over": _("{minutes} min over"),
        "now": _("now"),
        "since": _("No connection since {time}. What stands here may be old"),
        "sound_off": _("Sound is off: tap the screen or press a key once"),
    }
