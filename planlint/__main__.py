"""`python -m planlint` is the command."""

from planlint.command import main

raise SystemExit(main())
