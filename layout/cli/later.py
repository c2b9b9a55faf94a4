"""Commands whose options are made ready only when they are asked for: a start pays for one."""

from __future__ import annotations

from typing import Any

import typer
from typer.core import TyperCommand, TyperGroup
from typer.main import get_command_from_info


def leave_for_later(app: typer.Typer) -> None:
    """Let the commands of `app` that are there by now wait until they are asked for."""
    waiting = {info.name or str(getattr(info.callback, "__name__", "")): info
               for info in app.registered_commands}
    app.registered_commands = []

    class Group(TyperGroup):
        """The commands by name, each an empty one until it is asked for."""

        def __init__(self, **attrs: Any) -> None:
            super().__init__(**attrs)
            self.ready: set[str] = set()
            self.commands = {**{name: TyperCommand(name) for name in waiting}, **self.commands}

        def get_command(self, ctx: Any, cmd_name: str) -> Any:
            if cmd_name in waiting and cmd_name not in self.ready:
                self.ready.add(cmd_name)
                self.commands[cmd_name] = get_command_from_info(
                    waiting[cmd_name], pretty_exceptions_short=True, rich_markup_mode=None
                )
            return super().get_command(ctx, cmd_name)

    app.info.cls = Group
