"""People who sit a test over HTTP, each in a thread of their own, and what they remember of what the server told."""

import http.client
import json
import re
import time
from collections import defaultdict
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from math import ceil
from urllib.parse import urlencode

Given = tuple[str, str]
"""What was answered, as the server keeps it: the decision and the name as typed."""
PATIENCE = 30.0


@dataclass(frozen=True)
class Rhythm:
    """Every person answers once in `every` seconds for `seconds`, and begins at a moment of their own."""

    seconds: float
    every: float


@dataclass
class Sitter:
    """One person with a test open. `session` is their cookie; `questions` how many the test has. `writes` whether
    they also write a bare row between two answers.

    `waits` has the seconds of every request by what it was, counted from the moment at which it was due. `stands`
    has by position all that may stand there: what was last said to be saved, and whatever was sent since then.
    """

    address: tuple[str, int]
    session: str
    paper: str
    questions: int
    names: Sequence[str]
    writes: bool = True
    waits: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    stands: dict[int, set[Given]] = field(default_factory=dict)
    sent: int = 0
    saved: int = 0
    failures: list[str] = field(default_factory=list)
    _token: str = ""

    def sit(self, rhythm: Rhythm, begins: float) -> None:
        """Answer one question after the other until time is up, and look at each when it is its turn."""
        self._look(1, begins)
        due, turn = begins + rhythm.every, 0
        while due < begins + rhythm.seconds + rhythm.every / 2:
            _sleep_until(due)
            self._answer(turn, due)
            self._look(turn % self.questions + 1, time.monotonic())
            if self.writes:
                half = due + rhythm.every / 2
                _sleep_until(half)
                self._ask("insert", "/bench/insert/", half, {})
            due, turn = due + rhythm.every, turn + 1

    def _answer(self, turn: int, due: float) -> None:
        position, name = turn % self.questions + 1, self.names[turn % len(self.names)]
        decision = ("gather", "refuse")[turn // self.questions % 2]
        given = {"said": name, "name_is": "listed", "decision": decision, "confidence": "sure"}
        self.sent += 1
        self.stands.setdefault(position, set()).add((decision, name))
        numbered = {**given, "device": "a" * 32, "number": str(self.sent)}
        told = self._ask("answer", f"/sit/{self.paper}/{position}/", due, numbered)
        if told is not None and json.loads(told)["state"] == "saved":
            self.saved += 1
            self.stands[position] = {(decision, name)}

    def _look(self, position: int, due: float) -> None:
        page = self._ask("page", f"/sit/{self.paper}/{position}/", due)
        picture = re.search(rb'<img src="(/sit/[^"]+)"', page or b"")
        if picture:
            self._ask("picture", picture[1].decode(), time.monotonic())

    def _ask(self, what: str, path: str, due: float, form: Mapping[str, str] | None = None) -> bytes | None:
        """What the server answered; None where that was no proper answer, which is noted."""
        line = http.client.HTTPConnection(*self.address, timeout=PATIENCE)
        headers = {"Cookie": f"sessionid={self.session}; csrftoken={self._token}", "X-CSRFToken": self._token}
        if form is not None:
            headers["Content-Type"] = "application/x-www-form-urlencoded"
        try:
            line.request("GET" if form is None else "POST", path, urlencode(form or {}) or None, headers)
            answer = line.getresponse()
            body = answer.read()
        except OSError as error:
            self.failures.append(f"{what}: {error}")
            return None
        finally:
            line.close()
        self.waits[what].append(time.monotonic() - due)
        if answer.status not in (200, 204):
            self.failures.append(f"{what}: status {answer.status}")
            return None
        token = re.search(r"csrftoken=(\w+)", answer.getheader("Set-Cookie") or "")
        self._token = token[1] if token else self._token
        return body


def _sleep_until(moment: float) -> None:
    time.sleep(max(0.0, moment - time.monotonic()))


def sit_at_once(sitters: Sequence[Sitter], rhythm: Rhythm) -> float:
    """Let all sit at the same time, their moments spread evenly; returns the seconds that it took."""
    started = time.monotonic()
    begins = [started + rhythm.every * number / len(sitters) for number in range(len(sitters))]
    with ThreadPoolExecutor(len(sitters)) as crowd:
        for sitting in [crowd.submit(each.sit, rhythm, begin) for each, begin in zip(sitters, begins, strict=True)]:
            sitting.result()
    return time.monotonic() - started


def lost(sitter: Sitter, kept: Mapping[int, Given]) -> list[int]:
    """Positions at which the school has something else than what may stand there."""
    return [position for position, may_stand in sitter.stands.items() if kept.get(position) not in may_stand]


def percentile(values: Sequence[float], share: float) -> float:
    """The smallest value that so large a share of all does not exceed. ValueError without values."""
    if not values:
        raise ValueError("nothing was measured")
    return sorted(values)[max(0, ceil(share * len(values)) - 1)]
