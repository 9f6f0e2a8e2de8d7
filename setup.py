"""Templates, static files and migrations stand beside the packages in a checkout; a wheel carries them inside `webapp`."""

from pathlib import Path
from shutil import copytree

from setuptools import setup
from setuptools.command.build_py import build_py

FOLDERS = ("templates", "static", "migrations")


class WithFiles(build_py):
    """Copies the folders to where `webapp.settings` looks for them once installed."""

    def run(self) -> None:
        """Build, then copy; an editable install reads them from the checkout."""
        super().run()
        if self.editable_mode:
            return
        for folder in FOLDERS:
            target = Path(self.build_lib) / "webapp" / "_files" / folder
            copytree(
                folder, target, dirs_exist_ok=True, ignore=lambda _, names: {n for n in names if n == "__pycache__"}
            )


setup(cmdclass={"build_py": WithFiles})
