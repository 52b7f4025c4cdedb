//! A file written whole or not at all.

use crate::answer::Failure;
use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use tempfile::{Builder, NamedTempFile};

/// Writes `text` to the file at `out`, which must not be the file at `source`.
///
/// A file is written beside its place, synced, and put there in one step, with the mode
/// it had; a link stays, and what it points to is replaced; a device or pipe is written
/// to as it is.
pub(crate) fn save(out: &Path, source: &Path, text: &str) -> Result<(), Failure> {
    let refuse = |why: &str| Failure::Input(format!("{} cannot be written: {why}", out.display()));
    let place = target(out).map_err(|error| refuse(&format!("{error}; check the folder")))?;
    let before = match std::fs::metadata(&place) {
        Ok(before) => Some(before),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(refuse(&format!("{error}; check the folder"))),
    };
    if before.as_ref().is_some_and(|before| is_same(before, &place, source)) {
        return Err(refuse("it is the plan itself; give the sheet another name"));
    }
    match &before {
        Some(before) if before.is_dir() => Err(refuse("it is a folder; add a file name")),
        Some(before) if !before.is_file() => write_straight(&place, text).map_err(|error| {
            Failure::Work(format!("{} cannot be written: {error}", out.display()))
        }),
        Some(before) if before.permissions().readonly() => {
            Err(refuse("it may only be read; give another name, or allow writing first"))
        }
        _ => replace(&place, before.as_ref(), text).map_err(|error| failed(out, &error)),
    }
}

/// What ends in a missing or forbidden folder is the caller's to mend; a full disk is not.
fn failed(out: &Path, error: &io::Error) -> Failure {
    let name = out.display();
    match error.kind() {
        io::ErrorKind::NotFound
        | io::ErrorKind::PermissionDenied
        | io::ErrorKind::NotADirectory => Failure::Input(format!(
            "{name} cannot be written: {error}; check that the folder exists and may be written to"
        )),
        _ => Failure::Work(format!("{name} cannot be written: {error}")),
    }
}

/// Where the bytes go: through links, even one whose target is not there yet.
fn target(out: &Path) -> io::Result<PathBuf> {
    let mut place = out.to_path_buf();
    for _ in 0..40 {
        match std::fs::read_link(&place) {
            Ok(next) => place = folder(&place).join(next),
            Err(_) => return Ok(place),
        }
    }
    Err(io::Error::new(io::ErrorKind::InvalidInput, "its links go round in a circle"))
}

fn folder(place: &Path) -> &Path {
    match place.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// Whether both are one file, under whatever names.
fn is_same(before: &Metadata, place: &Path, source: &Path) -> bool {
    #[cfg(unix)]
    if let Ok(source) = std::fs::metadata(source) {
        use std::os::unix::fs::MetadataExt as _;
        return (before.dev(), before.ino()) == (source.dev(), source.ino());
    }
    let _ = before;
    let whole = |path: &Path| std::fs::canonicalize(path).ok();
    whole(place).is_some_and(|place| Some(place) == whole(source))
}

fn write_straight(place: &Path, text: &str) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).open(place)?;
    file.write_all(text.as_bytes())?;
    file.flush()
}

fn replace(place: &Path, before: Option<&Metadata>, text: &str) -> io::Result<()> {
    let folder = folder(place);
    let mut beside = beside(folder, before)?;
    beside.write_all(text.as_bytes())?;
    if let Some(before) = before {
        beside.as_file().set_permissions(before.permissions())?;
    }
    beside.as_file().sync_all()?;
    beside.persist(place)?;
    // The name is on the disk only once its folder is.
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// A file that did not exist before, read by nobody else until it has the mode of the one
/// it replaces; a new one gets what the system gives new files.
fn beside(folder: &Path, before: Option<&Metadata>) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".loopwright-");
    #[cfg(unix)]
    if before.is_none() {
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let _ = before;
    builder.tempfile_in(folder)
}
