"""How long messages take: `python tests/benchmarks/messages.py`.

Prints the best of several runs of: importing the machinery and a room of 200 messages, compiled before, beyond what the
standard library takes for itself; making a message; writing one with three arguments, in English and translated. The
bars are 3 ms for the import, 10 us for writing.
"""

import gettext
import os
import subprocess
import sys
import tempfile
import time
import timeit
from pathlib import Path

ROOT = Path(__file__).parents[2]
RUNS = 15
MESSAGES = 200
LIBRARIES = "argparse, contextlib, dataclasses, decimal, enum, functools, gettext, importlib, math, re, typing"
"""What the machinery imports of the standard library, most of which every command has loaded anyway."""

TIMED = """
import {libraries}, time
import panelart
begun = time.process_time()
import panelart.messages
machinery = time.process_time()
import room
print(machinery - begun, time.process_time() - machinery)
"""


def room() -> str:
    """A module of messages of the usual kind."""
    heads = ["from panelart.messages import Count, Listed, Mm, Quoted, Word, counted, message"]
    bodies = [
        f"@message\ndef told_{number}(owner: Word, key: Quoted, limit: Mm) -> None:\n"
        f'    """{{owner}} has no {{key}}, which is required; minimum {{limit}} ({number})"""'
        for number in range(MESSAGES)
    ]
    return "\n\n\n".join([*heads, *bodies]) + "\n"


def importing() -> tuple[float, float]:
    """Seconds for the machinery and for the room, the best of fresh processes."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "room.py").write_text(room(), encoding="utf-8")
        env = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{folder}", "PYTHONPYCACHEPREFIX": f"{folder}/compiled"}
        env.pop("PYTHONDONTWRITEBYTECODE", None)
        code = TIMED.format(libraries=LIBRARIES)
        runs = [
            subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True).stdout
            for _ in range(RUNS)
        ]
    times = [tuple(map(float, run.split())) for run in runs]
    return min(machinery for machinery, _ in times), min(room_ for _, room_ in times)


def microseconds(what: object, **names: object) -> float:
    """The best time of one run."""
    timer = timeit.Timer(str(what), timer=time.process_time, globals=names)
    number, _ = timer.autorange()
    return min(timer.repeat(repeat=RUNS, number=number)) / number * 1e6


def main() -> None:
    sys.path.insert(0, str(ROOT))
    from panelart.messages import Listed, Mm, Quoted, Word, message, speaking

    @message
    def told(owner: Word, key: Quoted, limit: Mm) -> None:
        """{owner} has no {key}, which is required; minimum {limit}"""

    @message
    def accepted(names: Listed) -> None:
        """Accepted: {names}"""

    machinery, room_ = importing()
    three = told(owner="coat", key="kind", limit=0.35)
    listed = accepted(names=[f"name-{number}" for number in range(12)])
    print(f"machinery             {machinery * 1e3:6.2f} ms")
    print(f"room of {MESSAGES} messages  {room_ * 1e3:6.2f} ms   both {(machinery + room_) * 1e3:.2f} (bar 3)")
    print(f"making                {microseconds('told(owner=1, key=2, limit=3)', told=told):6.2f} us")
    print(f"writing               {microseconds('str(m)', m=three):6.2f} us   (bar 10)")
    print(f"writing a list of 12  {microseconds('str(m)', m=listed):6.2f} us   (bar 10)")
    with speaking(gettext.NullTranslations()):
        print(f"writing, translated   {microseconds('str(m)', m=three):6.2f} us   (bar 10)")


if __name__ == "__main__":
    main()
