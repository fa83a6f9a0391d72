//! The review page.

use clap::ValueHint;
use std::net::SocketAddr;
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft review monday/                            everything drafted in that folder
  eavesdraft review walk.m4a                           one recording
  eavesdraft review monday/ --listen 0.0.0.0:8000      for others on the network, with a token";

/// Review drafts on a page in the browser
///
/// Shows the drafts of one recording, or of a folder and the folders inside it, and keeps what people decide in the
/// folder's eavesdraft.sqlite. Recordings and drafts are never changed. Prints the page's address and
/// opens it; Ctrl-C ends it.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct ReviewArgs {
    /// A folder with drafts, or a drafted recording
    #[arg(value_name = "FOLDER or FILE", default_value = ".", value_hint = ValueHint::AnyPath)]
    pub target: PathBuf,

    /// Listen on this address and port [default: 127.0.0.1:28470, or any free port where that is taken]
    ///
    /// Beyond this machine, for example 0.0.0.0:8000, the page is for whoever has the token that is printed once.
    #[arg(long, value_name = "ADDRESS:PORT")]
    pub listen: Option<SocketAddr>,

    /// Look for recordings in DIR where they aren't beside their drafts
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub recordings: Option<PathBuf>,

    /// Don't open a browser
    #[arg(long)]
    pub no_browser: bool,

    /// Lay the office's own rules in DIR over the built-in ones
    ///
    /// What reviewers teach on the page is kept there, in taught.toml, for every draft made with --grammar DIR.
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub grammar: Option<PathBuf>,
}
