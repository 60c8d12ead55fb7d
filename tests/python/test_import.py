import subprocess
import sys


def test_import_leaves_large_libraries_alone():
    code = "import raisedbody, sys; print({'matplotlib', 'narwhals', 'numpy'} & set(sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout == "set()\n"
