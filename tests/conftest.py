"""No test reads the shop file of whoever runs it."""

import os

os.environ["SHOULDERLINE_SHOP"] = ""
