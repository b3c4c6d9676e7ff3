"""Reads a plan file back into the problem and timetable, knowing nothing but its JSON values."""

from typing import Any

from planner.schedule.problem import (
    Changeovers,
    Exposure,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Rest,
    Serving,
    Task,
    Wait,
    Walk,
    Worker,
)
from planner.schedule.timetable import Assignment, Lead, Timetable

Json = dict[str, Any]


def problem_of(document: Json) -> Problem:
    facts = document["schedule"]
    cooks = [cook["cook"] for cook in facts["cooks"]]
    return Problem(
        start=facts["start"]["minutes"],
        horizon=facts["horizon"]["minutes"],
        workers=tuple(_worker(cook) for cook in facts["cooks"]),
        resources=tuple(Resource(**one) for one in facts["resources"]),
        families=tuple(_family(one) for one in facts["families"]),
        tasks=tuple(_task(one, cooks) for one in facts["tasks"]),
        jobs=tuple(_job(one) for one in facts["jobs"]),
        waits=tuple(Wait(**one) for one in facts["waits"]),
        holds=tuple(Hold(**one) for one in facts["holds"]),
        promises=tuple(Promise(**one) for one in facts["promises"]),
        changeovers=Changeovers(
            **facts["changeovers"]
            | {"walks": tuple(Walk(**one) for one in facts["changeovers"]["walks"])}
        ),
        exposures=tuple(_exposure(one) for one in facts["exposures"]),
    )


def timetable_of(document: Json) -> Timetable:
    cooks = [cook["cook"] for cook in document["schedule"]["cooks"]]
    assignments = []
    for lot in document["lots"]:
        for task in lot["tasks"]:
            done = task["done"]
            if done is None:
                continue
            lead = {kind: minutes for kind, minutes in done["lead"].items() if kind != "total"}
            assignments.append(
                Assignment(
                    task["task"],
                    cooks.index(done["cook"]),
                    done["start"]["minutes"],
                    done["end"]["minutes"],
                    Lead(**lead),
                    tuple(
                        (use["hold"], use["unit"])
                        for use in done["uses"]
                        if use["unit"] is not None
                    ),
                    tuple(use["hold"] for use in done["uses"] if use["cleaned"]),
                )
            )
    rests = document.get("rests", {})
    return Timetable(
        tuple(assignments),
        tuple(tuple(start["minutes"] for start in rests.get(cook, ())) for cook in cooks),
    )


def _minutes(moment: Json | None) -> int | None:
    return None if moment is None else moment["minutes"]


def _exposure(one: Json) -> Exposure:
    return Exposure(**{**one, "after": tuple(one["after"]), "since": _minutes(one["since"])})


def _worker(cook: Json) -> Worker:
    return Worker(
        id=cook["cook"],
        start=cook["start"]["minutes"],
        end=cook["end"]["minutes"],
        latest_end=cook["latest_end"]["minutes"],
        blocked=tuple((one["start"]["minutes"], one["end"]["minutes"]) for one in cook["blocked"]),
        wage_per_hour=cook["wage_per_hour"],
        flexible=cook["flexible"],
        min_paid=cook["min_paid"],
        rests=tuple(
            Rest(one["minutes"], one["earliest"]["minutes"], one["latest"]["minutes"])
            for one in cook["rests"]
        ),
    )


def _family(one: Json) -> Family:
    return Family(
        operation=one["operation"],
        food=one["food"],
        station=one["station"],
        hygiene=Hygiene(one["raw_animal"], frozenset(one["allergens"])),
        set_up=one["set_up"],
    )


def _task(one: Json, cooks: list[str]) -> Task:
    return Task(
        id=one["id"],
        lot=one["lot"],
        family=one["family"],
        minutes={cooks.index(cook): minutes for cook, minutes in one["minutes"].items()},
        release=one["release"]["minutes"],
        earliest_end=_minutes(one["earliest_end"]),
        due=_minutes(one["due"]),
        due_weight=one["due_weight"],
        until=_minutes(one["until"]),
        fresh_weight=one["fresh_weight"],
        pausable=one["pausable"],
    )


def _job(one: Json) -> Job:
    return Job(
        id=one["id"],
        tasks=tuple(one["tasks"]),
        needs=tuple(one["needs"]),
        serves=tuple(Serving(**serving) for serving in one["serves"]),
        impossible=one["impossible"],
    )
