import subprocess
import sys


def test_import_leaves_numpy_alone():
    code = "import raisedbody, sys; print('numpy' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout == "False\n"
