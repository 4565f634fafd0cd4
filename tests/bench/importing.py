"""What it costs to bring photographs in, against nothing but decoding and resizing the same files.

    .venv/bin/python -m tests.bench.importing [files]

The files are made here: 12 megapixels each, smooth fields with grain, about as heavy as a camera's. Two floors with
the same library, one file after the other: *bare* decodes no larger than needed, turns, and resizes to the widths
of the bank; *saved* also saves every size as the bank does. The import reads, checks, hashes, decodes on as many
threads as there are processors, writes the files and the rows, in a database of its own. Wall clock and CPU time;
nothing is asserted.
"""

import os
import platform
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image, ImageOps
from PIL import __version__ as pillow_version

from species.documents.renditions import PHONE_WIDTH, WEBP_FROM

FILES, SIZE, GRAIN = 200, (4000, 3000), 10
WIDTHS = (400, 800, 1200, 1600)


@dataclass(frozen=True)
class Cost:
    """Seconds by the clock on the wall, and of all processors together."""

    wall: float
    cpu: float


def made_up_photo(width: int, height: int, grain: int = GRAIN, seed: int = 7) -> bytes:
    """A JPEG that compresses like a photograph: fields of light, leaves of some pixels, and grain."""
    chance = np.random.default_rng(seed)
    fields = _scaled(chance.integers(30, 220, (max(2, height // 200), max(2, width // 200), 3)), width, height)
    leaves = _scaled(chance.integers(0, 255, (max(2, height // 12), max(2, width // 12), 3)), width, height)
    light = np.asarray(Image.blend(fields, leaves, 0.3)).astype(np.int16)
    light += chance.normal(0, grain, (height, width, 1)).astype(np.int16)
    out = BytesIO()
    Image.fromarray(np.clip(light, 0, 255).astype(np.uint8)).save(out, "JPEG", quality=90)
    return out.getvalue()


def _scaled(values: np.ndarray, width: int, height: int) -> Image.Image:
    return Image.fromarray(values.astype(np.uint8)).resize((width, height), Image.Resampling.BICUBIC)


def make_files(folder: Path, count: int, size: tuple[int, int] = SIZE) -> list[Path]:
    """Files that all differ: every one is the same photograph with bytes of its own after the picture's start."""
    kinds = [made_up_photo(*size, seed=seed) for seed in range(min(count, 8))]
    paths = [folder / f"{number:04}.jpg" for number in range(count)]
    for number, path in enumerate(paths):
        content = kinds[number % len(kinds)]
        comment = f"{number:08}".encode()
        path.write_bytes(content[:2] + b"\xff\xfe" + (len(comment) + 2).to_bytes(2, "big") + comment + content[2:])
    return paths


def bare(paths: Iterable[Path], save: bool = False) -> int:
    """Decode and resize, and save every size where asked; the number of pictures made."""
    made = 0
    for path in paths:
        image = Image.open(path)
        widest = min(max(WIDTHS), image.width)
        image.draft("RGB", (widest, image.height * widest // image.width))
        upright = ImageOps.exif_transpose(image).convert("RGB")
        for width in WIDTHS:
            sized = upright.resize((width, image.height * width // image.width), Image.Resampling.LANCZOS)
            if save:
                sized.save(BytesIO(), "JPEG", quality=82, optimize=True)
                if WEBP_FROM <= width <= PHONE_WIDTH:
                    sized.save(BytesIO(), "WEBP", quality=76, method=1)
            made += 1
    return made


def brought_in(paths: Iterable[Path]) -> int:
    """Bring the files in as the command does; how many were taken."""
    from django.utils import timezone

    from species.actions.importing import Incoming, Outcome, PhotoImport
    from species.documents.pictures import Limits

    run = PhotoImport(widths=WIDTHS, limits=Limits(), by=None, now=timezone.now())
    files = (Incoming(path.name, path.stat().st_size, path.read_bytes) for path in paths)
    return sum(report.outcome is Outcome.TAKEN for report in run.take_all(files))


def measured(step: Callable[[], object]) -> Cost:
    """What one run of a step costs."""
    wall, cpu = time.perf_counter(), time.process_time()
    step()
    return Cost(time.perf_counter() - wall, time.process_time() - cpu)


def compare(paths: list[Path]) -> dict[str, Cost]:
    """The import against both floors, each once, on the same files."""
    return {
        "bare": measured(lambda: bare(paths)),
        "saved": measured(lambda: bare(paths, save=True)),
        "import": measured(lambda: brought_in(paths)),
    }


def main(count: int) -> None:
    """Measure in a folder and a database of their own, and print."""
    with tempfile.TemporaryDirectory(prefix="kenspeckle-bench-") as folder:
        os.environ["KENSPECKLE_VAR"] = folder
        os.environ["KENSPECKLE_TEST_VAR"] = folder
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
        import django
        from django.core.management import call_command

        django.setup()
        call_command("migrate", verbosity=0)
        (Path(folder) / "in").mkdir()
        paths = make_files(Path(folder) / "in", count)
        weight = sum(path.stat().st_size for path in paths) / count / 1e6
        print(f".venv/bin/python -m tests.bench.importing {count}")
        print(
            f"{platform.machine()}, {os.cpu_count()} processors, Python {platform.python_version()}, "
            f"Pillow {pillow_version}; {count} files of {SIZE[0]} x {SIZE[1]}, {weight:.1f} MB each"
        )
        costs = compare(paths)
        for name, cost in costs.items():
            ratio = cost.wall / costs["bare"].wall, cost.cpu / costs["bare"].cpu
            print(
                f"{name:>7}: {cost.wall / count * 1000:6.0f} ms a file by the wall (x {ratio[0]:.2f} bare), "
                f"{cost.cpu / count * 1000:6.0f} ms of CPU (x {ratio[1]:.2f} bare)"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else FILES)
