//! Connections: how many, how slow they may be, and how they end when the server is to
//! stop.

use super::problem::{PROBLEM, Problem};
use super::state::{Shared, State};
use super::stream::Watched;
use super::{Settings, router};
use axum::Router;
use axum::http::StatusCode;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::{GracefulShutdown, Watcher};
use hyper_util::service::TowerToHyperService;
use std::io::Error;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::{sleep, timeout};

/// How many times a head that is too large is still read, to be refused by a problem. What is
/// larger yet ends with its status alone, which the connection writes by itself.
const BEYOND: usize = 4;

/// Serves until the program is told to stop; `begun` is told the address.
///
/// # Errors
/// Where the address cannot be taken.
pub(crate) fn serve(settings: Settings, begun: impl FnOnce(SocketAddr)) -> Result<(), Error> {
    let Settings { rules, listen, token, metrics, today, limits } = settings;
    let gate = super::gate::Gate::new(listen.ip(), token.as_deref());
    let state = Arc::new(State::new(rules, limits, gate, metrics, today));
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(limits.slots)
        // Work has as many threads as slots; a few more for work that is being called off.
        .max_blocking_threads(limits.slots.saturating_add(4))
        .enable_all()
        .build()?;
    let ended = runtime.block_on(async {
        let listener = TcpListener::bind(listen).await?;
        let stop = told_to_stop()?;
        begun(listener.local_addr()?);
        listen_on(listener, router(Arc::clone(&state)), &state, stop).await;
        Ok(())
    });
    // Nobody waits for work any more that has not ended by now.
    runtime.shutdown_timeout(Duration::from_secs(1));
    ended
}

/// Ends when the program is told to stop: Ctrl-C, or the system's request.
fn told_to_stop() -> Result<impl Future<Output = ()>, Error> {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        let (mut interrupt, mut terminate) = (signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?);
        Ok(async move {
            tokio::select! {
                _ = interrupt.recv() => {}
                _ = terminate.recv() => {}
            }
        })
    }
    #[cfg(not(unix))]
    Ok(async {
        let _told = tokio::signal::ctrl_c().await;
    })
}

/// Takes connections until `stop`, then lets those that are in the middle of a request
/// finish it.
pub(super) async fn listen_on(listener: TcpListener, router: Router, state: &Shared, stop: impl Future<Output = ()>) {
    let open = Arc::new(Semaphore::new(state.limits.connections));
    let ends = GracefulShutdown::new();
    tokio::pin!(stop);
    loop {
        let taken = tokio::select! {
            () = &mut stop => break,
            taken = listener.accept() => taken,
        };
        match taken {
            Ok((stream, _)) => match Arc::clone(&open).try_acquire_owned() {
                Ok(held) => {
                    tokio::spawn(talk(stream, router.clone(), Arc::clone(state), ends.watcher(), held));
                }
                Err(_) => turn_away(&stream, state),
            },
            // Too many open files, say: it passes when some are closed.
            Err(_) => sleep(Duration::from_millis(50)).await,
        }
    }
    drop(listener);
    state.stop();
    let _ended = timeout(state.limits.farewell, ends.shutdown()).await;
}

/// One connection.
async fn talk(stream: TcpStream, router: Router, state: Shared, ends: Watcher, held: OwnedSemaphorePermit) {
    let _held = held;
    let _slower = stream.set_nodelay(true);
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(state.limits.head_time)
        .max_buf_size(state.limits.head.saturating_mul(BEYOND))
        .max_headers(state.limits.head_fields.saturating_mul(BEYOND))
        .serve_connection(
            TokioIo::new(Watched::new(stream, state.limits.write_time)),
            TowerToHyperService::new(router),
        );
    // A client that breaks off or is too slow is no fault of this program.
    let _ended = ends.watch(connection).await;
}

/// Tells a client that too many are connected, as far as it listens at once.
fn turn_away(stream: &TcpStream, state: &State) {
    if let Some(metrics) = &state.metrics {
        metrics.turned_away();
    }
    let problem = Problem::busy("too many connections are open");
    let body = format!("{:#}\n", problem.value());
    let status = StatusCode::SERVICE_UNAVAILABLE;
    let answer = format!(
        "HTTP/1.1 {status}\r\ncontent-type: {PROBLEM}\r\ncontent-length: {}\r\nretry-after: {}\r\n\
         x-content-type-options: nosniff\r\ncache-control: no-store\r\nconnection: close\r\n\r\n{body}",
        body.len(),
        super::limits::ASK_AGAIN,
    );
    let _told = stream.try_write(answer.as_bytes());
}
