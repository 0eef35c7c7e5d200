//! Keeping the job sheet, so that nothing that was said is lost: at the end, when
//! it is asked for, at the end of the input, and on Ctrl-C.

use super::super::{files, screen};
use super::console::Console;
use super::talk::End;
use crate::report::walk::Voice;
use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// The status of a program that was ended from the keyboard, as shells count it.
const INTERRUPTED: i32 = 130;

/// What is kept, shared with the thread that heeds Ctrl-C.
#[derive(Debug)]
struct Kept {
    sheet: Option<String>,
    to: Option<PathBuf>,
    over: bool,
    /// The files that this talk itself wrote.
    own: BTreeSet<PathBuf>,
}

/// Keeps the sheet.
#[derive(Debug)]
pub(super) struct Keeper(Arc<Mutex<Kept>>);

/// Why a sheet was not written.
enum Unkept {
    Exists,
    Failed(String),
}

impl Keeper {
    /// For a file, if there is one.
    ///
    /// # Errors
    /// Where the file exists and may not be written over.
    pub(super) fn new(to: Option<PathBuf>, over: bool) -> Result<Keeper, String> {
        if let Some(file) = to.as_deref().filter(|file| !over && file.exists()) {
            return Err(format!("`{}` exists already", files::name(file)));
        }
        Ok(Keeper(Arc::new(Mutex::new(Kept { sheet: None, to, over, own: BTreeSet::new() }))))
    }

    fn kept(&self) -> MutexGuard<'_, Kept> {
        // What is kept is whole at every moment.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Has the sheet written or printed where the program is ended from the keyboard.
    pub(super) fn heed(&self, voice: Voice) {
        let kept = Arc::clone(&self.0);
        std::thread::spawn(move || {
            // Where the system gives no such signal there is nothing to heed.
            let Ok(runtime) = tokio::runtime::Builder::new_current_thread().enable_all().build() else { return };
            if runtime.block_on(tokio::signal::ctrl_c()).is_ok() {
                kept.lock().unwrap_or_else(PoisonError::into_inner).interrupted(voice);
                std::process::exit(INTERRUPTED);
            }
        });
    }

    /// The sheet so far.
    pub(super) fn set(&self, sheet: Option<String>) {
        self.kept().sheet = sheet;
    }

    /// Writes the sheet to a file, or to the one of the options; tells how it went,
    /// and asks where none is named.
    pub(super) fn save(&self, console: &Console, name: Option<&str>) {
        let reader = console.voice().reader;
        if self.kept().sheet.is_none() {
            console.line(&reader.say("walk-save-no-place"));
            return;
        }
        let named = name.map(PathBuf::from).or_else(|| self.kept().to.clone());
        match named {
            Some(file) => {
                self.write(console, &file);
            }
            None => self.ask(console),
        }
    }

    /// Asks for a file until the sheet is written, or prints it.
    fn ask(&self, console: &Console) {
        loop {
            console.line(&console.voice().reader.say("walk-save-where"));
            match console.answer().as_deref().map(str::trim) {
                None | Some("") => {
                    self.print();
                    return;
                }
                Some(name) if self.write(console, Path::new(name)) => return,
                Some(_) => {}
            }
        }
    }

    fn write(&self, console: &Console, file: &Path) -> bool {
        let outcome = self.kept().write(file);
        let (text, done) = told(console.voice(), file, &outcome);
        console.line(&text);
        done
    }

    fn print(&self) {
        if let Some(sheet) = &self.kept().sheet {
            screen::print(sheet);
        }
    }

    /// The end of the talk: the sheet goes to its file, or is printed.
    pub(super) fn close(&self, console: &mut Console, end: End) {
        let reader = console.voice().reader;
        let to = self.kept().to.clone();
        match (to, end) {
            (Some(file), _) if self.write(console, &file) => {}
            (None, End::Stopped) => self.ask(console),
            _ => {
                let lead = match end {
                    End::Verdict => reader.say("walk-sheet"),
                    End::Stopped => reader.say("walk-stopped"),
                    End::InputEnded => reader.say("walk-ended"),
                };
                console.tell("\n");
                console.line(&lead);
                if end == End::Verdict && !console.shows_sheets() {
                    // The page and the sheet stand in one file, apart.
                    screen::print("\n");
                }
                self.print();
            }
        }
        // What was written or printed is not kept a second time.
        self.set(None);
    }
}

impl Kept {
    fn write(&mut self, file: &Path) -> Result<(), Unkept> {
        let Some(sheet) = &self.sheet else { return Ok(()) };
        let failed = |problem: std::io::Error| Unkept::Failed(files::in_words(&problem));
        let may = self.own.contains(file) || (self.over && self.to.as_deref() == Some(file));
        if may && file.exists() {
            files::replace(file, sheet.as_bytes()).map_err(|told| Unkept::Failed(told.message))?;
        } else {
            let opened = std::fs::OpenOptions::new().write(true).create_new(true).open(file);
            let mut opened = opened.map_err(|problem| match problem.kind() {
                std::io::ErrorKind::AlreadyExists => Unkept::Exists,
                _ => failed(problem),
            })?;
            opened.write_all(sheet.as_bytes()).and_then(|()| opened.sync_all()).map_err(failed)?;
        }
        self.own.insert(file.to_owned());
        Ok(())
    }

    /// Nobody can be asked any more: the file of the options, else standard output.
    fn interrupted(&mut self, voice: Voice) {
        let Some(sheet) = self.sheet.clone() else { return };
        if let Some(file) = self.to.clone() {
            let outcome = self.write(&file);
            let (text, done) = told(voice, &file, &outcome);
            screen::complain(&format!("\n{}", voice.line(&text, crate::report::look::Tone::Plain)));
            if done {
                return;
            }
        }
        screen::print(&format!("\n{sheet}"));
    }
}

fn told(voice: Voice, file: &Path, outcome: &Result<(), Unkept>) -> (String, bool) {
    let reader = voice.reader;
    let name = files::name(file);
    match outcome {
        Ok(()) => (reader.say_with("walk-saved", &[("file", &name)]), true),
        Err(Unkept::Exists) => (reader.say_with("walk-save-exists", &[("file", &name)]), false),
        Err(Unkept::Failed(reason)) => {
            (reader.say_with("walk-save-failed", &[("file", &name), ("reason", reason)]), false)
        }
    }
}
