"""Runs the vectors against copies of the Python twin: `python run_vectors.py COPY...`.

Each copy is a folder that holds `homestead`. Prints, as JSON, the names of the vectors each copy turns red.
Copies are loaded one after the other; nothing of the tree itself may be imported before.
"""

from __future__ import annotations

import importlib
import json
import sys
from pathlib import Path
from typing import Any

TREE = Path(__file__).parents[2]


def red_vectors(copy: str, vectors: list[dict[str, Any]]) -> list[str]:
    for name in [name for name in sys.modules if name.split(".")[0] == "homestead"]:
        del sys.modules[name]
    sys.path.insert(0, copy)
    importlib.invalidate_caches()
    try:
        fold = importlib.import_module("homestead.storekeeping.fold")
        assert str(fold.__file__).startswith(copy), fold.__file__
        return [vector["name"] for vector in vectors if is_red(fold, vector)]
    finally:
        sys.path.remove(copy)


def is_red(fold: Any, vector: dict[str, Any]) -> bool:
    from tests.storekeeping.agreement import disagreements

    try:
        folded = fold.fold_all(vector["lines"], vector["setting"])
        return bool(disagreements(vector, fold.state_at(folded, vector["today"])))
    except Exception:  # a mistake may as well end in an error
        return True


def main() -> None:
    sys.path.append(str(TREE))
    from tests.storekeeping.agreement import vectors

    told = vectors()
    print(json.dumps({copy: red_vectors(copy, told) for copy in sys.argv[1:]}))


if __name__ == "__main__":
    main()
