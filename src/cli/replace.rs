//! A file put in the place of another, whole or not at all.

use std::fs::{File, Permissions};
use std::io::{self, Write};
use std::path::Path;

use tempfile::NamedTempFile;

/// Writes a new file and puts it in the place of `path`: with the permissions of the one it replaces, or those of any new
/// file. It has no name until it is whole, where the system can do that.
///
/// # Errors
/// Why it could not be written; nothing is left behind then.
pub(super) fn replace(path: &Path, permissions: Option<Permissions>, bytes: &[u8]) -> io::Result<()> {
    if let Some(mut file) = unnamed(folder(path)) {
        fill(&mut file, &permissions, bytes)?;
        if let Some(done) = link(&file, path) {
            return done;
        }
    }
    let mut new = new_file(folder(path))?;
    let _removed = interrupt::Removed::at(new.path());
    fill(new.as_file_mut(), &permissions, bytes)?;
    new.persist(path).map(drop).map_err(|error| error.error)
}

fn fill(file: &mut File, permissions: &Option<Permissions>, bytes: &[u8]) -> io::Result<()> {
    if let Some(permissions) = permissions {
        file.set_permissions(permissions.clone())?;
    }
    write_all(file, bytes)?;
    file.sync_all()
}

/// A new file without a name, in `folder`; `None` where the system has none.
#[cfg(target_os = "linux")]
fn unnamed(folder: &Path) -> Option<File> {
    use rustix::fs::{Mode, OFlags, open};
    // The user's umask takes its share away, as for any new file.
    let mode = Mode::from_raw_mode(0o666);
    open(folder, OFlags::TMPFILE | OFlags::WRONLY | OFlags::CLOEXEC, mode).ok().map(File::from)
}

#[cfg(not(target_os = "linux"))]
fn unnamed(_: &Path) -> Option<File> {
    None
}

/// Gives a file without a name that of `path`, by way of another name where a file has it already; `None` where the system
/// cannot.
#[cfg(target_os = "linux")]
fn link(file: &File, path: &Path) -> Option<io::Result<()>> {
    use std::os::fd::AsRawFd;

    use rustix::fs::{AtFlags, CWD, linkat};
    let own = format!("/proc/self/fd/{}", file.as_raw_fd());
    let name = |to: &Path| linkat(CWD, own.as_str(), CWD, to, AtFlags::SYMLINK_FOLLOW);
    match name(path) {
        Ok(()) => return Some(Ok(())),
        Err(rustix::io::Errno::EXIST) => {}
        Err(_) => return None,
    }
    let beside = folder(path).join(format!(".lanecap-{}", std::process::id()));
    let _removed = interrupt::Removed::at(&beside);
    name(&beside).ok()?;
    let renamed = std::fs::rename(&beside, path);
    if renamed.is_err() {
        let _ = std::fs::remove_file(&beside);
    }
    Some(renamed)
}

#[cfg(not(target_os = "linux"))]
fn link(_: &File, _: &Path) -> Option<io::Result<()>> {
    None
}

fn new_file(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".lanecap-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // The user's umask takes its share away, as for any new file.
        builder.permissions(Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder).map_err(|error| plain(&error))
}

pub(super) fn write_all(to: &mut impl Write, bytes: &[u8]) -> io::Result<()> {
    to.write_all(bytes)?;
    to.flush()
}

/// The folder a file stands in.
pub(super) fn folder(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The error without the path of a temporary file.
pub(super) fn plain(error: &io::Error) -> io::Error {
    io::Error::from(error.kind())
}

/// What an interrupted run takes with it.
mod interrupt {
    use std::path::{Path, PathBuf};
    use std::sync::{Mutex, PoisonError};

    static NEW: Mutex<Option<PathBuf>> = Mutex::new(None);

    fn set(path: Option<PathBuf>) {
        *NEW.lock().unwrap_or_else(PoisonError::into_inner) = path;
    }

    /// While it lives, an interrupt removes the file.
    pub(super) struct Removed;

    impl Removed {
        /// The file of this name is removed on SIGINT, SIGTERM and SIGHUP.
        pub(super) fn at(path: &Path) -> Removed {
            set(Some(path.to_owned()));
            #[cfg(unix)]
            watch();
            Removed
        }
    }

    impl Drop for Removed {
        fn drop(&mut self) {
            set(None);
        }
    }

    /// Ends the run at a signal as it would have ended without this, but for the file.
    #[cfg(unix)]
    fn watch() {
        use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
        use signal_hook::iterator::Signals;
        // A signal that is ignored, as under nohup, stays so.
        let heeded = [SIGINT, SIGTERM, SIGHUP].into_iter().filter(|signal| !is_ignored(*signal));
        let Ok(mut signals) = Signals::new(heeded) else {
            return;
        };
        std::thread::spawn(move || {
            for signal in signals.forever() {
                if let Some(path) = NEW.lock().unwrap_or_else(PoisonError::into_inner).take() {
                    let _ = std::fs::remove_file(path);
                }
                let _ = signal_hook::low_level::emulate_default_handler(signal);
            }
        });
    }

    #[cfg(unix)]
    fn is_ignored(signal: i32) -> bool {
        let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
        let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
        let mask = mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
        mask.is_some_and(|mask| mask >> (signal - 1) & 1 == 1)
    }
}
