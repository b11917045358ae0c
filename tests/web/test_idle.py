"""Garbage is searched for when nobody waits: after an answer that no other request follows, and not before."""

from __future__ import annotations

import asyncio
import gc
import weakref
from collections.abc import Coroutine, Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest
from starlette.types import Message, Scope

from linewright.web.idle import IDLE_S, LEAST, TidyWhenIdle

SCOPE: Scope = {"type": "http"}


class _Knot:
    """Something that only a search finds to be garbage."""

    def __init__(self) -> None:
        self.itself = self


@pytest.fixture(autouse=True)
def _never_by_itself() -> Iterator[None]:
    before = gc.get_threshold()
    gc.collect()
    gc.set_threshold(10_000_000, 1_000, 1_000)
    yield
    gc.set_threshold(*before)


async def _receive() -> Message:
    return {"type": "http.request"}


async def _send(_: Message) -> None:
    pass


class _Answers:
    """Answers after a while, and leaves some garbage."""

    def __init__(self, knots: int, takes_s: float = 0.0) -> None:
        self.knots, self.takes_s = knots, takes_s
        self.left: weakref.ref[_Knot] | None = None

    async def __call__(self, *_: object) -> None:
        await asyncio.sleep(self.takes_s)
        made = [_Knot() for _ in range(self.knots)]
        self.left = self.left or weakref.ref(made[0])

    def is_gone(self) -> bool:
        assert self.left is not None
        return self.left() is None


def _told(story: Coroutine[object, object, None]) -> None:
    """Tell a story in a thread of its own: in this one a browser may have its loop."""
    with ThreadPoolExecutor(1) as one:
        one.submit(asyncio.run, story).result()


async def _ask(app: TidyWhenIdle) -> None:
    await app(SCOPE, _receive, _send)


def test_what_an_answer_leaves_is_gone_when_nobody_has_asked_for_a_while() -> None:
    async def story() -> None:
        answers = _Answers(LEAST)
        await _ask(TidyWhenIdle(answers))
        assert not answers.is_gone()
        await asyncio.sleep(2 * IDLE_S)
        assert answers.is_gone()

    _told(story())


def test_nothing_is_searched_while_somebody_waits_or_asks_again_soon() -> None:
    async def story() -> None:
        answers = _Answers(LEAST)
        app = TidyWhenIdle(answers)
        for _ in range(4):
            await _ask(app)
            await asyncio.sleep(0.6 * IDLE_S)
        assert not answers.is_gone()
        answers.takes_s = 2 * IDLE_S
        await _ask(app)
        assert not answers.is_gone()
        await asyncio.sleep(2 * IDLE_S)
        assert answers.is_gone()

    _told(story())


def test_little_that_is_new_is_not_searched() -> None:
    async def story() -> None:
        answers = _Answers(1)
        await _ask(TidyWhenIdle(answers))
        await asyncio.sleep(2 * IDLE_S)
        assert not answers.is_gone()

    _told(story())


def test_a_request_that_fails_is_followed_by_a_search_too() -> None:
    class _Fails(_Answers):
        async def __call__(self, *_: object) -> None:
            await super().__call__()
            raise ValueError("refused")

    async def story() -> None:
        answers = _Fails(LEAST)
        with pytest.raises(ValueError, match="refused"):
            await _ask(TidyWhenIdle(answers))
        await asyncio.sleep(2 * IDLE_S)
        assert answers.is_gone()

    _told(story())
