"""A survey folder as one zip file, and back, with limits on what a zip may do."""

import io
import zipfile
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from model.survey.attribute import Wrong
from model.survey.faults import Fault, SurveyFaults, shown, shown_name

LARGEST_ZIP = 10_000_000  # bytes as sent
LARGEST_TOTAL = 60_000_000  # bytes unpacked
MOST_FILES = 60
CHUNK = 1 << 16
ENTRY = b"PK\x01\x02"  # begins an entry of the list at a zip's end (PKWARE, APPNOTE 4.3.12)
LONGEST_NAME = 100  # letters
PACKINGS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
STAMP = (2000, 1, 1, 0, 0, 0)  # the same folder makes the same zip
ENDINGS = (
    *(".toml", ".csv", ".txt", ".md", ".geojson", ".gpkg", ".tif", ".epw", ".json"),
    *(".shp", ".shx", ".dbf", ".prj", ".cpg", ".qix", ".sbn", ".sbx", ".png", ".jpg"),
)


def folder_zip(folder: Path) -> bytes:
    """The files of a folder (not of folders within it, none that are hidden) as a zip."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for file in sorted(folder.iterdir()):
            if is_own_file(file):
                entry = zipfile.ZipInfo(file.name, STAMP)
                entry.compress_type = zipfile.ZIP_DEFLATED
                archive.writestr(entry, file.read_bytes())
    return out.getvalue()


def is_own_file(file: Path) -> bool:
    """Whether it is a file of its folder: not hidden, no folder, no link that leads out of it."""
    if file.name.startswith(".") or not file.is_file():
        return False
    return not file.is_symlink() or file.resolve().is_relative_to(file.parent.resolve())


def zip_files(data: bytes, name: str = "the zip") -> Mapping[str, bytes]:
    """The files of a zip by name, all in memory; one folder round them is taken off.

    Raises SurveyFaults when it is no zip, leads out of its folder, holds a link, a file in a
    folder within, a name twice, an encrypted file, or more than the limits. The size is counted
    as it is unpacked, whatever the zip says of itself.
    """
    if len(data) > LARGEST_ZIP:
        raise _wrong(name, _size(len(data)), f"at most {_size(LARGEST_ZIP)}", "leaving files out")
    listed = data.count(ENTRY)  # counted first: the list of a million files fills the memory
    if listed > 2 * MOST_FILES:
        raise _wrong(name, f"{listed:,} files", f"at most {MOST_FILES}", "leaving some out")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _unpacked(archive, name)
    except SurveyFaults:
        raise
    except Exception as error:
        found = f"a file that is no whole zip ({shown_name(str(error))})"
        raise _wrong(name, found, "a zip of a survey folder", "packing it again") from error


def _unpacked(archive: zipfile.ZipFile, zip_name: str) -> dict[str, bytes]:
    entries = [one for one in archive.infolist() if not one.is_dir() and not _is_debris(one)]
    if len(entries) > MOST_FILES:
        raise _wrong(zip_name, f"{len(entries)} files", f"at most {MOST_FILES}", "leaving some out")
    names = _names(entries, zip_name)
    files: dict[str, bytes] = {}
    left = LARGEST_TOTAL
    for entry, name in zip(entries, names, strict=True):
        with archive.open(entry) as file:
            content = bytearray()
            while chunk := file.read(CHUNK):
                left -= len(chunk)
                if left < 0:
                    expected = f"at most {_size(LARGEST_TOTAL)} unpacked"
                    raise _wrong(zip_name, f"more at {name}", expected, "leaving files out")
                content += chunk
        files[name] = bytes(content)
    return files


def _is_debris(entry: zipfile.ZipInfo) -> bool:
    """Whether it is what a computer's own zip maker adds: hidden files and their folder."""
    path = PurePosixPath(entry.filename)
    return path.name.startswith(".") or "__MACOSX" in path.parts


def _names(entries: list[zipfile.ZipInfo], zip_name: str) -> list[str]:
    paths = []
    for entry in entries:
        path = PurePosixPath(entry.filename)
        odd = "\\" in entry.filename or ":" in entry.filename or not entry.filename.isprintable()
        odd = odd or not path.name or len(path.name) > LONGEST_NAME
        if odd or path.is_absolute() or ".." in path.parts:
            found = f"the name {shown(entry.filename)}"
            raise _wrong(zip_name, found, "plain file names", "packing the folder again")
        if (entry.external_attr >> 16) & 0o170000 == 0o120000:
            found = f"{entry.filename}, a link"
            raise _wrong(zip_name, found, "files", "packing the file itself")
        if entry.compress_type not in PACKINGS:
            found = f"{entry.filename}, packed in a way that is not read"
            raise _wrong(zip_name, found, "a plain zip", "packing the folder with another program")
        if path.suffix.lower() not in ENDINGS:
            expected = "files of a survey folder such as site.toml or features.geojson"
            raise _wrong(zip_name, f"the file {path.name}", expected, "leaving it out")
        paths.append(path)
    outer = {path.parts[:-1] for path in paths}
    if len(outer) > 1 or any(len(parts) > 1 for parts in outer):
        raise _wrong(zip_name, "folders within", "one folder's files", "packing that folder alone")
    names = [path.name for path in paths]
    if len({name.lower() for name in names}) < len(names):
        raise _wrong(zip_name, "a file twice", "each file once", "packing the folder again")
    if "site.toml" not in names:
        raise _wrong(zip_name, "no site.toml", "a survey folder", "packing the folder with it")
    return names


def _wrong(name: str, found: str, expected: str, mend: str) -> SurveyFaults:
    wrong = Wrong(found, expected, mend)
    return SurveyFaults([Fault(name, None, "", *wrong)])


def _size(count: int) -> str:
    return f"{count / 1e6:,.1f} MB"
