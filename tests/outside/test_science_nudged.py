"""Is there a check for every formula? Each public function of science is nudged by 1 %, and a check must
notice.

A function that answers in numbers has its answer nudged, one that answers in words the numbers it is given.
"""

from __future__ import annotations

import contextlib
import dataclasses
import importlib
import inspect
import pkgutil
import warnings
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import numpy as np
import pytest

import homestead.science

#: asks and answers in words alone: there is nothing to nudge
NO_NUMBERS = {"ill_neighbours"}
CHECKS = ("air", "score", "decisions", "survival", "keeping")
NUDGE = 1.01
Function = Callable[..., Any]


def science_modules() -> list[ModuleType]:
    names = [module.name for module in pkgutil.iter_modules(homestead.science.__path__)]
    return [importlib.import_module(f"homestead.science.{name}") for name in names]


def check_modules() -> list[ModuleType]:
    return [importlib.import_module(f"test_science_{name}") for name in CHECKS]


def public_functions() -> list[Function]:
    found = [
        function
        for module in science_modules()
        for name, function in vars(module).items()
        if not name.startswith("_")
        and callable(function)
        and not inspect.isclass(function)
        and getattr(function, "__module__", "") == module.__name__
        and name not in NO_NUMBERS
    ]
    return list(dict.fromkeys(found))


def nudged(value: Any) -> Any:
    """The value with every number in it 1 % larger, but for whole numbers within an answer, which name
    rows and days.
    """
    if isinstance(value, bool | np.bool_):
        return value
    if isinstance(value, int | float | np.number):
        return value * NUDGE
    if isinstance(value, np.ndarray):
        return value * NUDGE if value.dtype.kind in "fiu" else value
    if isinstance(value, list | tuple):
        return type(value)(nudged(one) for one in value)
    if isinstance(value, dict):
        return {key: nudged(one) for key, one in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        inside = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
        return dataclasses.replace(
            value, **{n: x if isinstance(x, int) else nudged(x) for n, x in inside.items()}
        )
    return value


def answers_in_words(answer: Any) -> bool:
    """Whether there is no number in it to nudge."""
    try:
        return bool(nudged(answer) is answer) or repr(nudged(answer)) == repr(answer)
    except (TypeError, ValueError):
        return False


def nudging(function: Function) -> Function:
    def instead(*args: Any, **options: Any) -> Any:
        answer = function(*args, **options)
        if answers_in_words(answer):
            return function(*nudged(args), **nudged(options))
        return nudged(answer)

    return instead


@contextlib.contextmanager
def put_in_place(function: Function, other: Function) -> Iterator[None]:
    """Every name in science and in the checks that means the function means the other one."""
    places = [
        (module, name)
        for module in (*science_modules(), *check_modules())
        for name, value in list(vars(module).items())
        if value is function
    ]
    for module, name in places:
        setattr(module, name, other)
    try:
        yield
    finally:
        for module, name in places:
            setattr(module, name, function)


def checks() -> list[Function]:
    return [
        check
        for module in check_modules()
        for name, check in vars(module).items()
        if name.startswith("test_") and not inspect.signature(check).parameters
    ]


def callers(functions: list[Function], all_checks: list[Function]) -> dict[Function, list[Function]]:
    """Which checks call a function, on their way."""
    called: dict[Function, list[Function]] = {function: [] for function in functions}
    current: list[Function] = []

    def watching(function: Function) -> Function:
        def instead(*args: Any, **options: Any) -> Any:
            if current[0] not in called[function]:
                called[function].append(current[0])
            return function(*args, **options)

        return instead

    with contextlib.ExitStack() as stack:
        for function in functions:
            stack.enter_context(put_in_place(function, watching(function)))
        for check in all_checks:
            current[:] = [check]
            check()
    return called


def noticed(function: Function, its_checks: list[Function]) -> bool:
    with put_in_place(function, nudging(function)), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for check in its_checks:
            try:
                check()
            except AssertionError:
                return True
            except Exception:  # a crash is no check: a number where a row's number was due
                continue
    return False


def test_every_public_function_has_a_check_that_notices_one_percent() -> None:
    functions = public_functions()
    called = callers(functions, checks())
    unnoticed = [f"{f.__module__}.{f.__name__}" for f in functions if not noticed(f, called[f])]
    assert len(functions) > 80
    assert " ".join(unnoticed) == ""


def test_the_checks_are_quiet_when_nothing_is_nudged() -> None:
    """Or the test above would prove nothing."""
    for check in checks():
        check()


def test_a_formula_without_a_check_would_be_listed() -> None:
    def unheard(x: float) -> float:
        return x

    assert not noticed(unheard, [])
    with pytest.raises(AssertionError):
        assert nudged(100.0) == pytest.approx(100.0, rel=5e-3)
