//! The talk with the editor: from its first message to its last, in their order.
//!
//! Changes are taken as they come and worked on when a question needs it, or when
//! nothing more is waiting, so that of many changes in a row only the last state is
//! read and linked. A question that was taken back before its turn is not answered.

use super::Settings;
use super::address::Address;
use super::lens;
use super::publish::Publisher;
use super::requests::{answer, error, is_long};
use super::shelf::Shelf;
use super::view::View;
use lsp_server::{Connection, ErrorCode, Message, Notification, Request, RequestId, Response, ResponseError};
use lsp_types::notification::{
    Cancel, DidChangeTextDocument, DidChangeWatchedFiles, DidChangeWorkspaceFolders, DidCloseTextDocument,
    DidOpenTextDocument, DidSaveTextDocument, Exit, Initialized, Notification as Told,
};
use lsp_types::request::{Initialize, RegisterCapability, Request as _, Shutdown};
use lsp_types::{
    CompletionOptions, DidChangeWatchedFilesRegistrationOptions, FileChangeType, FileSystemWatcher, GlobPattern,
    HoverProviderCapability, InitializeParams, InitializeResult, NumberOrString, OneOf, Registration,
    RegistrationParams, RenameOptions, SaveOptions, ServerCapabilities, ServerInfo, TextDocumentSyncCapability,
    TextDocumentSyncKind, TextDocumentSyncOptions, TextDocumentSyncSaveOptions, Uri,
    WorkspaceFoldersServerCapabilities, WorkspaceServerCapabilities,
};
use serde::de::DeserializeOwned;
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

/// The talk.
pub(super) struct Server<'c> {
    connection: &'c Connection,
    settings: Settings,
    desk: Option<Desk>,
    leaving: bool,
}

/// What there is once the editor has introduced itself.
struct Desk {
    shelf: Shelf,
    view: Arc<View>,
    changed: Vec<Address>,
    publisher: Publisher,
    /// Whether the editor can be asked to watch files.
    watches: bool,
}

/// Whether the talk goes on.
enum Next {
    On,
    End,
}

impl<'c> Server<'c> {
    /// A talk that has not begun.
    pub(super) fn new(connection: &'c Connection, settings: Settings) -> Server<'c> {
        Server { connection, settings, desk: None, leaving: false }
    }

    /// Talks until the editor leaves. True where it said good-bye before.
    pub(super) fn run(mut self) -> bool {
        let mut waiting: VecDeque<Message> = VecDeque::new();
        loop {
            if waiting.is_empty() && self.connection.receiver.is_empty() {
                self.settle();
            }
            if waiting.is_empty() {
                match self.connection.receiver.recv() {
                    Ok(message) => waiting.push_back(message),
                    // The editor is gone without a word.
                    Err(_) => return false,
                }
            }
            waiting.extend(self.connection.receiver.try_iter());
            self.take_back(&mut waiting);
            let Some(message) = waiting.pop_front() else { continue };
            let next = match message {
                Message::Request(request) => self.request(request),
                Message::Notification(told) => self.notification(told),
                // Nothing that is asked of the editor needs its answer.
                Message::Response(_) => Next::On,
            };
            if matches!(next, Next::End) {
                return self.leaving;
            }
        }
    }

    /// Answers the questions that the editor takes back, and forgets them.
    fn take_back(&self, waiting: &mut VecDeque<Message>) {
        let back: Vec<RequestId> = waiting
            .iter()
            .filter_map(|message| match message {
                Message::Notification(told) if told.method == Cancel::METHOD => {
                    serde_json::from_value::<lsp_types::CancelParams>(told.params.clone()).ok()
                }
                _ => None,
            })
            .map(|cancel| match cancel.id {
                NumberOrString::Number(number) => RequestId::from(number),
                NumberOrString::String(text) => RequestId::from(text),
            })
            .collect();
        if back.is_empty() {
            return;
        }
        waiting.retain(|message| match message {
            Message::Request(request) if back.contains(&request.id) => {
                self.respond(request.id.clone(), Err(error(ErrorCode::RequestCanceled, "the question was taken back")));
                false
            }
            _ => true,
        });
    }

    fn request(&mut self, request: Request) -> Next {
        let id = request.id.clone();
        let result = match (request.method.as_str(), self.desk.is_some(), self.leaving) {
            (_, _, true) => Err(error(ErrorCode::InvalidRequest, "the editor has said good-bye")),
            (Initialize::METHOD, true, _) => Err(error(ErrorCode::InvalidRequest, "the editor has introduced itself")),
            (Initialize::METHOD, false, _) => self.introduce(request.params),
            (Shutdown::METHOD, _, _) => {
                self.leaving = true;
                Ok(serde_json::Value::Null)
            }
            _ => {
                self.settle();
                match &self.desk {
                    Some(desk) if is_long(&request.method) => {
                        self.beside(Arc::clone(&desk.view), request);
                        return Next::On;
                    }
                    Some(desk) => answered(&desk.view, request),
                    None => Err(error(ErrorCode::ServerNotInitialized, "the editor has not introduced itself")),
                }
            }
        };
        self.respond(id, result);
        Next::On
    }

    /// Answers a question beside the talk, from the files as they are now.
    fn beside(&self, view: Arc<View>, request: Request) {
        let sender = self.connection.sender.clone();
        std::thread::spawn(move || {
            let id = request.id.clone();
            let response_result = answered(&view, request);
            // Where the editor is gone there is nobody left to tell.
            let _sent = sender.send(Message::Response(Response { id, response_result }));
        });
    }

    fn introduce(&mut self, params: serde_json::Value) -> Result<serde_json::Value, ResponseError> {
        let params: InitializeParams = serde_json::from_value(params).map_err(|problem| {
            error(ErrorCode::InvalidParams, format!("the editor cannot be understood: {problem}"))
        })?;
        let watched = params.capabilities.workspace.as_ref().and_then(|workspace| workspace.did_change_watched_files);
        let watches = watched.and_then(|watched| watched.dynamic_registration).unwrap_or(false);
        let mut shelf = Shelf::new(self.settings.clone(), roots(&params));
        let view = Arc::new(shelf.view(None));
        let sender = self.connection.sender.clone();
        let publisher = Publisher::new(move |message| {
            // Where the editor is gone there is nobody left to tell.
            let _sent = sender.send(message);
        });
        publisher.look(&view, Vec::new());
        self.desk = Some(Desk { shelf, view, changed: Vec::new(), publisher, watches });
        let result = InitializeResult {
            capabilities: capabilities(),
            server_info: Some(ServerInfo {
                name: env!("CARGO_PKG_NAME").to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
        };
        serde_json::to_value(result).map_err(|problem| error(ErrorCode::InternalError, problem.to_string()))
    }

    fn notification(&mut self, told: Notification) -> Next {
        if told.method == Exit::METHOD {
            return Next::End;
        }
        let Some(desk) = self.desk.as_mut().filter(|_| !self.leaving) else { return Next::On };
        match told.method.as_str() {
            Initialized::METHOD if desk.watches => self.watch(),
            DidOpenTextDocument::METHOD => with::<DidOpenTextDocument>(told, |told| {
                let document = told.text_document;
                desk.changed.push(Address::of(&document.uri));
                desk.shelf.open(document.uri, document.version, document.text);
            }),
            DidChangeTextDocument::METHOD => with::<DidChangeTextDocument>(told, |told| {
                desk.changed.push(Address::of(&told.text_document.uri));
                desk.shelf.change(&told.text_document.uri, told.text_document.version, told.content_changes);
            }),
            DidCloseTextDocument::METHOD => {
                with::<DidCloseTextDocument>(told, |told| desk.shelf.close(&told.text_document.uri));
            }
            DidSaveTextDocument::METHOD => {
                with::<DidSaveTextDocument>(told, |told| desk.shelf.look_again(&Address::of(&told.text_document.uri)));
            }
            DidChangeWatchedFiles::METHOD => with::<DidChangeWatchedFiles>(told, |told| {
                for change in told.changes {
                    let address = Address::of(&change.uri);
                    if change.typ == FileChangeType::DELETED {
                        desk.shelf.look_again_under(&address);
                    }
                    desk.shelf.look_again(&address);
                }
            }),
            DidChangeWorkspaceFolders::METHOD => with::<DidChangeWorkspaceFolders>(told, |told| {
                for gone in told.event.removed {
                    if let Some(path) = Address::of(&gone.uri).path() {
                        desk.shelf.remove_root(&path);
                    }
                }
                for added in told.event.added {
                    if let Some(path) = Address::of(&added.uri).path() {
                        desk.shelf.add_root(path);
                    }
                }
            }),
            _ => {}
        }
        Next::On
    }

    /// Asks the editor to tell of files that change beside it.
    fn watch(&self) {
        let watchers = ["**/*.rule", "**/*.job", "**/*.geojson", "**/*.json"]
            .map(|pattern| FileSystemWatcher { glob_pattern: GlobPattern::String(pattern.to_owned()), kind: None });
        let options = DidChangeWatchedFilesRegistrationOptions { watchers: watchers.into() };
        let registration = Registration {
            id: "files".to_owned(),
            method: DidChangeWatchedFiles::METHOD.to_owned(),
            register_options: serde_json::to_value(options).ok(),
        };
        let params = RegistrationParams { registrations: vec![registration] };
        let id = RequestId::from("watch".to_owned());
        self.send(Message::Request(Request::new(id, RegisterCapability::METHOD.to_owned(), params)));
    }

    /// Reads and links what changed, and has it looked through.
    fn settle(&mut self) {
        let Some(desk) = self.desk.as_mut().filter(|desk| desk.shelf.is_stale() && !self.leaving) else { return };
        desk.view = Arc::new(desk.shelf.view(Some(&desk.view)));
        desk.publisher.look(&desk.view, std::mem::take(&mut desk.changed));
    }

    fn respond(&self, id: RequestId, result: Result<serde_json::Value, ResponseError>) {
        self.send(Message::Response(Response { id, response_result: result }));
    }

    fn send(&self, message: Message) {
        // Where the editor is gone the next look for a message ends the talk.
        let _sent = self.connection.sender.send(message);
    }
}

/// The answer to a question; a fault of the server's own ends with an error and no more.
fn answered(view: &View, request: Request) -> Result<serde_json::Value, ResponseError> {
    catch_unwind(AssertUnwindSafe(|| answer(view, request)))
        .unwrap_or_else(|_| Err(error(ErrorCode::InternalError, "the answer could not be made")))
}

/// Takes a notification; one that is not as the protocol has it is passed over, for
/// there is no answer to it.
fn with<N: Told>(told: Notification, take: impl FnOnce(N::Params))
where
    N::Params: DeserializeOwned,
{
    if let Ok(params) = serde_json::from_value(told.params) {
        take(params);
    }
}

/// The editor's folders.
fn roots(params: &InitializeParams) -> Vec<std::path::PathBuf> {
    let folders = params.workspace_folders.iter().flatten().map(|folder| &folder.uri);
    let folders: Vec<&Uri> = folders.collect();
    #[expect(deprecated, reason = "older editors have one folder and tell it so")]
    let root = params.root_uri.as_ref().filter(|_| folders.is_empty());
    folders.into_iter().chain(root).filter_map(|uri| Address::of(uri).path()).collect()
}

/// What the server can do.
fn capabilities() -> ServerCapabilities {
    ServerCapabilities {
        text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::INCREMENTAL),
            save: Some(TextDocumentSyncSaveOptions::SaveOptions(SaveOptions { include_text: Some(false) })),
            ..TextDocumentSyncOptions::default()
        })),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some([" ", "(", ".", ","].map(str::to_owned).into()),
            ..CompletionOptions::default()
        }),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: lsp_types::WorkDoneProgressOptions::default(),
        })),
        document_symbol_provider: Some(OneOf::Left(true)),
        document_formatting_provider: Some(OneOf::Left(true)),
        code_lens_provider: Some(lens::options()),
        workspace: Some(WorkspaceServerCapabilities {
            workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(OneOf::Left(true)),
            }),
            file_operations: None,
        }),
        ..ServerCapabilities::default()
    }
}
