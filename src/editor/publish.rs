//! Tells the editor what was found, from a thread of its own: of the files that
//! changed at once, of all others behind that.
//!
//! The newest view wins: a look at the whole library ends where a newer view is
//! there. Of a file of which the same was told before nothing is told again.

use super::address::Address;
use super::findings;
use super::view::View;
use crate::syntax::diagnostic::{FileId, Severity};
use lsp_server::{Message, Notification};
use lsp_types::notification::{Notification as _, PublishDiagnostics, ShowMessage};
use lsp_types::{MessageType, PublishDiagnosticsParams, ShowMessageParams, Uri};
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

/// Takes views to look through.
pub(super) struct Publisher {
    jobs: Sender<Job>,
    newest: Arc<AtomicU64>,
}

struct Job {
    view: Arc<View>,
    /// The files that the editor changed.
    changed: Vec<Address>,
}

impl Publisher {
    /// Starts the thread; `send` takes messages to the editor.
    pub(super) fn new(send: impl Fn(Message) + Send + 'static) -> Publisher {
        let (jobs, taken) = channel();
        let newest = Arc::new(AtomicU64::new(0));
        let mut desk = Desk { send: Box::new(send), newest: Arc::clone(&newest), told: HashMap::new(), shown: None };
        std::thread::spawn(move || desk.work(&taken));
        Publisher { jobs, newest }
    }

    /// Looks through a view. What is still at work on an older one ends.
    pub(super) fn look(&self, view: &Arc<View>, changed: Vec<Address>) {
        self.newest.store(view.number, Ordering::Relaxed);
        // Where the thread has ended there is nobody left to tell.
        let _taken = self.jobs.send(Job { view: Arc::clone(view), changed });
    }
}

/// What was told of a file last.
#[derive(Debug, PartialEq)]
struct Told {
    uri: Uri,
    version: Option<i32>,
    diagnostics: Vec<lsp_types::Diagnostic>,
}

struct Desk {
    send: Box<dyn Fn(Message) + Send>,
    newest: Arc<AtomicU64>,
    told: HashMap<Address, Told>,
    /// What was shown last of files that are not the editor's.
    shown: Option<String>,
}

impl Desk {
    fn work(&mut self, jobs: &Receiver<Job>) {
        let mut kept: Option<Arc<View>> = None;
        while let Ok(job) = jobs.recv() {
            let (mut view, mut changed) = (job.view, job.changed);
            // Of views that wait only the newest is looked through.
            for newer in jobs.try_iter() {
                view = newer.view;
                changed.extend(newer.changed);
            }
            self.at_once(&view, &changed);
            // The view before is given up only now: to take a large one apart takes time.
            kept.replace(Arc::clone(&view));
            let newest = Arc::clone(&self.newest);
            let number = view.number;
            let stopped = move || newest.load(Ordering::Relaxed) != number;
            if !stopped()
                && let Some(found) = findings::of_all(&view, &stopped)
            {
                self.all(&view, &found);
            }
        }
    }

    /// Tells what is found in the files that changed.
    fn at_once(&mut self, view: &View, changed: &[Address]) {
        let mut files: Vec<FileId> =
            changed.iter().filter_map(|address| view.by_address.get(address)).copied().collect();
        files.sort_unstable();
        files.dedup();
        for file in files {
            let of_tree = view.twins.get(&file).copied().unwrap_or(file);
            let found = match view.rules.tree(of_tree) {
                Some(_) => findings::of_file(view, of_tree),
                None => findings::of_sheets(view),
            };
            let mut told: Vec<lsp_types::Diagnostic> = found
                .iter()
                .filter_map(|one| findings::told(view, one))
                .filter(|(at, _)| *at == of_tree)
                .map(|(_, one)| one)
                .collect();
            in_order(&mut told);
            self.tell(view, file, told);
        }
    }

    /// Tells what is found in all files.
    fn all(&mut self, view: &View, found: &[crate::syntax::diagnostic::Diagnostic]) {
        let mut by_file: BTreeMap<FileId, Vec<lsp_types::Diagnostic>> = BTreeMap::new();
        let mut elsewhere = Vec::new();
        for one in found {
            match findings::told(view, one) {
                Some((file, told)) => by_file.entry(file).or_default().push(told),
                None if one.severity() == Severity::Error => elsewhere.push(one),
                None => {}
            }
        }
        for file in view.by_address.values() {
            let of_tree = view.twins.get(file).copied().unwrap_or(*file);
            let mut told = by_file.get(&of_tree).cloned().unwrap_or_default();
            in_order(&mut told);
            self.tell(view, *file, told);
        }
        let gone: Vec<Address> =
            self.told.keys().filter(|address| !view.by_address.contains_key(*address)).cloned().collect();
        for address in gone {
            if let Some(told) = self.told.remove(&address).filter(|told| !told.diagnostics.is_empty()) {
                self.publish(told.uri, None, Vec::new());
            }
        }
        let first = elsewhere.first().map(|one| {
            format!(
                "the rules given beside these files cannot be used: {} in `{}`, {}",
                one.code,
                view.name(one.at.file),
                one.message
            )
        });
        if first != self.shown {
            if let Some(message) = &first {
                let params = ShowMessageParams { typ: MessageType::WARNING, message: message.clone() };
                (self.send)(Message::Notification(Notification::new(ShowMessage::METHOD.to_owned(), params)));
            }
            self.shown = first;
        }
    }

    fn tell(&mut self, view: &View, file: FileId, diagnostics: Vec<lsp_types::Diagnostic>) {
        let Some(face) = view.face(file).filter(|face| face.own) else { return };
        let told = Told { uri: face.uri.clone(), version: face.version, diagnostics };
        let before = self.told.get(&face.address);
        let quiet = before.is_none() && told.diagnostics.is_empty() && told.version.is_none();
        if before != Some(&told) && !quiet {
            self.publish(told.uri.clone(), told.version, told.diagnostics.clone());
            self.told.insert(face.address.clone(), told);
        }
    }

    fn publish(&self, uri: Uri, version: Option<i32>, diagnostics: Vec<lsp_types::Diagnostic>) {
        let params = PublishDiagnosticsParams { uri, diagnostics, version };
        (self.send)(Message::Notification(Notification::new(PublishDiagnostics::METHOD.to_owned(), params)));
    }
}

fn in_order(told: &mut Vec<lsp_types::Diagnostic>) {
    told.sort_by(|one, other| {
        (one.range.start, one.range.end, &one.message).cmp(&(other.range.start, other.range.end, &other.message))
    });
    told.dedup();
}
