"""The arithmetic of turning an enclosed cargo trailer into a camper that also hauls a toy.

One document, the build, is put to several questions:

>>> import wainwright
>>> build = wainwright.Build.from_dict({"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}})
>>> build.payload().states["delivered"].payload_left_lb
4820.0

`payload` needs masses alone; `axle_load` needs places and axles too.
"""

from . import _wainwright, reports
from ._air import MoistAir, moist_air
from ._build import Build, compare
from ._errors import BuildError, Fault
from ._options import CatalogueFolder, options, search
from ._score import score
from ._weather import WeatherFolder

__all__ = [
    "Build",
    "BuildError",
    "CatalogueFolder",
    "Fault",
    "MoistAir",
    "WeatherFolder",
    "__version__",
    "compare",
    "moist_air",
    "options",
    "reports",
    "score",
    "search",
]

__version__ = _wainwright.VERSION
