//! A connection whose client has to take what it is sent: one that lets an answer lie
//! is left.

use std::future::Future;
use std::io::{Error, ErrorKind, Result};
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::TcpStream;
use tokio::time::{Instant, Sleep, sleep};

/// A connection that is watched.
pub(super) struct Watched {
    stream: TcpStream,
    patience: Duration,
    /// Runs while the client takes nothing.
    waiting: Pin<Box<Sleep>>,
    waits: bool,
}

impl Watched {
    pub(super) fn new(stream: TcpStream, patience: Duration) -> Watched {
        Watched { stream, patience, waiting: Box::pin(sleep(patience)), waits: false }
    }

    /// What writing came to, or that it was waited for too long.
    fn within(&mut self, context: &mut Context<'_>, done: Poll<Result<usize>>) -> Poll<Result<usize>> {
        if done.is_ready() {
            self.waits = false;
            return done;
        }
        if !self.waits {
            self.waits = true;
            self.waiting.as_mut().reset(Instant::now() + self.patience);
        }
        match self.waiting.as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(Err(Error::from(ErrorKind::TimedOut))),
            Poll::Pending => Poll::Pending,
        }
    }
}

impl AsyncRead for Watched {
    fn poll_read(mut self: Pin<&mut Self>, context: &mut Context<'_>, into: &mut ReadBuf<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, into)
    }
}

impl AsyncWrite for Watched {
    fn poll_write(mut self: Pin<&mut Self>, context: &mut Context<'_>, bytes: &[u8]) -> Poll<Result<usize>> {
        let done = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.within(context, done)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[std::io::IoSlice<'_>],
    ) -> Poll<Result<usize>> {
        let done = Pin::new(&mut self.stream).poll_write_vectored(context, bytes);
        self.within(context, done)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}
