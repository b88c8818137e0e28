import importlib.util
import sys
from pathlib import Path

# the folder is no package (import-mode importlib): its shared texts are loaded under a name of their own
_spec = importlib.util.spec_from_file_location("spec_jobs", Path(__file__).with_name("jobs.py"))
_module = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(_module)
sys.modules["spec_jobs"] = _module
