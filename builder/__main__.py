"""`python -m builder` is the `wetfilm` command."""

import sys

from builder.cli import main

sys.exit(main())
