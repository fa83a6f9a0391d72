//! A browser without a window, and what a person does in it. Whatever it waits for, it looks for until a deadline.

use fantoccini::actions::{InputSource, KeyAction, KeyActions, MouseActions, PointerAction};
use fantoccini::elements::Element;
use fantoccini::key::Key;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};
use tokio::runtime::Runtime;

/// How long anything may take before the test fails: much longer than it takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(30);

/// Between two looks at what is waited for.
const PAUSE: Duration = Duration::from_millis(20);

/// What a test needs from outside, and where it is.
pub struct Tools {
    chromium: PathBuf,
    chromedriver: PathBuf,
    axe: PathBuf,
}

/// The browser, its driver and the rules of accessibility; none where one isn't there and need not be.
pub fn tools() -> Option<Tools> {
    let axe = std::env::var_os("EAVESDRAFT_AXE").map(PathBuf::from);
    let own = || Path::new(env!("CARGO_MANIFEST_DIR")).join("node_modules/axe-core/axe.min.js");
    let found = || -> Result<Tools, &str> {
        Ok(Tools {
            chromium: on_path("chromium").ok_or("chromium is missing")?,
            chromedriver: on_path("chromedriver").ok_or("chromedriver is missing")?,
            axe: Some(axe.unwrap_or_else(own)).filter(|file| file.exists()).ok_or("axe-core is missing")?,
        })
    };
    match found() {
        Ok(tools) => Some(tools),
        Err(missing) if std::env::var_os("EAVESDRAFT_REQUIRE_BROWSER").is_some() => panic!("{missing}"),
        Err(missing) => {
            println!("skipped, for want of a browser: {missing}");
            None
        }
    }
}

fn on_path(name: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path).map(|folder| folder.join(name)).find(|file| file.is_file())
}

/// A browser with one page; it ends with the test.
pub struct Browser {
    runtime: Runtime,
    /// None only while it ends.
    client: Option<Client>,
    driver: Child,
    /// Open as long as the driver may write to it.
    _told: BufReader<ChildStdout>,
    /// Where the session is asked for what only this browser can do.
    session: String,
    axe: PathBuf,
    _profile: tempfile::TempDir,
}

impl Browser {
    /// As wide as on a desk.
    pub fn new(tools: &Tools) -> Self {
        Self::begin(tools, json!({}))
    }

    /// A phone, held upright.
    pub fn phone(tools: &Tools) -> Self {
        let screen = json!({ "width": 390, "height": 844, "pixelRatio": 1.0, "touch": true, "mobile": true });
        Self::begin(tools, json!({ "mobileEmulation": { "deviceMetrics": screen } }))
    }

    fn begin(tools: &Tools, mut options: Value) -> Self {
        let (driver, told, address) = start_driver(&tools.chromedriver);
        let profile = tempfile::tempdir().unwrap();
        options["binary"] = json!(tools.chromium);
        options["args"] = json!([
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--window-size=1400,900",
            format!("--user-data-dir={}", profile.path().display()),
        ]);
        let logs = json!({ "browser": "ALL", "performance": "ALL" });
        let wanted = json!({ "goog:chromeOptions": options, "goog:loggingPrefs": logs });
        let runtime = Runtime::new().unwrap();
        let client = runtime.block_on(async {
            let mut builder = ClientBuilder::new(HttpConnector::new());
            builder.capabilities(wanted.as_object().unwrap().clone());
            builder.connect(&address).await.unwrap()
        });
        let id = runtime.block_on(client.session_id()).unwrap().unwrap();
        let session = format!("{address}/session/{id}");
        let axe = tools.axe.clone();
        Self { runtime, client: Some(client), driver, _told: told, session, axe, _profile: profile }
    }

    fn client(&self) -> &Client {
        self.client.as_ref().unwrap()
    }

    /// Opens an address.
    pub fn open(&self, address: &str) {
        self.runtime.block_on(self.client().goto(address)).unwrap();
    }

    /// Opens the only recording of a server, and says who reviews.
    pub fn review(&self, address: &str, who: &str) {
        self.open(address);
        self.shown("#who");
        self.types("#who", who);
        self.press(&[Key::Enter.into()]);
        self.until(
            "no box is open",
            "return !document.querySelector('dialog') && !!document.querySelector('.line.chosen')",
        );
    }

    /// What a script gives.
    pub fn ask(&self, script: &str) -> Value {
        self.ask_with(script, Vec::new())
    }

    pub fn ask_with(&self, script: &str, args: Vec<Value>) -> Value {
        self.runtime.block_on(self.client().execute(script, args)).unwrap()
    }

    /// Waits until a script gives true.
    pub fn until(&self, what: &str, script: &str) {
        self.until_with(what, script, &[]);
    }

    pub fn until_with(&self, what: &str, script: &str, args: &[Value]) {
        let end = Instant::now() + PATIENCE;
        while self.ask_with(script, args.to_vec()) != json!(true) {
            if Instant::now() > end {
                let page = self.ask(
                    "return [...document.querySelectorAll('dialog'), document.getElementById('told'), document.body]\
                     .map((part) => part.innerText.slice(0, 2000)).join('\\n\\n')",
                );
                panic!("{what}: not so after {PATIENCE:?}. The page:\n{}", page.as_str().unwrap_or_default());
            }
            std::thread::sleep(PAUSE);
        }
    }

    /// Waits until something is seen.
    pub fn shown(&self, css: &str) {
        let seen = "return !!document.querySelector(arguments[0])?.checkVisibility()";
        self.until_with(&format!("{css} is shown"), seen, &[json!(css)]);
    }

    /// Waits until something isn't seen.
    pub fn gone(&self, css: &str) {
        let seen = "return !document.querySelector(arguments[0])?.checkVisibility()";
        self.until_with(&format!("{css} is gone"), seen, &[json!(css)]);
    }

    /// Waits until an element's text holds some words.
    pub fn says(&self, css: &str, words: &str) {
        let holds = "return !!document.querySelector(arguments[0])?.textContent.includes(arguments[1])";
        self.until_with(&format!("{css} says “{words}”"), holds, &[json!(css), json!(words)]);
    }

    /// The text of an element.
    pub fn text(&self, css: &str) -> String {
        let text =
            self.ask_with("return document.querySelector(arguments[0])?.textContent ?? ''", vec![json!(css)]);
        text.as_str().unwrap().to_owned()
    }

    /// How many elements there are.
    pub fn count(&self, css: &str) -> u64 {
        self.ask_with("return document.querySelectorAll(arguments[0]).length", vec![json!(css)])
            .as_u64()
            .unwrap()
    }

    fn element(&self, css: &str) -> Element {
        self.shown(css);
        self.runtime.block_on(self.client().find(Locator::Css(css))).unwrap_or_else(|e| panic!("{css}: {e}"))
    }

    /// Clicks.
    pub fn click(&self, css: &str) {
        let element = self.element(css);
        self.runtime.block_on(element.click()).unwrap_or_else(|e| panic!("{css}: {e}"));
    }

    /// Presses keys, one after the other, wherever the focus is.
    pub fn press(&self, keys: &[char]) {
        let mut actions = KeyActions::new("keys".into());
        for key in keys {
            actions = actions.then(KeyAction::Down { value: *key }).then(KeyAction::Up { value: *key });
        }
        self.runtime.block_on(self.client().perform_actions(actions)).unwrap();
    }

    /// Presses keys while one is held.
    pub fn press_with(&self, held: Key, keys: &[char]) {
        let mut actions = KeyActions::new("keys".into()).then(KeyAction::Down { value: held.into() });
        for key in keys {
            actions = actions.then(KeyAction::Down { value: *key }).then(KeyAction::Up { value: *key });
        }
        let actions = actions.then(KeyAction::Up { value: held.into() });
        self.runtime.block_on(self.client().perform_actions(actions)).unwrap();
    }

    /// Puts text into a field, in place of what it holds.
    pub fn types(&self, css: &str, text: &str) {
        let element = self.element(css);
        self.runtime.block_on(async {
            element.clear().await.unwrap();
            element.send_keys(text).await.unwrap();
        });
    }

    /// Chooses from a list.
    pub fn selects(&self, css: &str, value: &str) {
        let element = self.element(css);
        self.runtime.block_on(element.select_by_value(value)).unwrap_or_else(|e| panic!("{css}: {e}"));
    }

    /// Presses the mouse on one element, and lets go on another.
    pub fn drag(&self, from: &str, to: &str) {
        let at = |css| PointerAction::MoveToElement {
            element: self.element(css),
            duration: Some(Duration::from_millis(50)),
            x: 0.0,
            y: 0.0,
        };
        let actions = MouseActions::new("mouse".into())
            .then(at(from))
            .then(PointerAction::Down { button: 0 })
            .then(at(to))
            .then(PointerAction::Up { button: 0 });
        self.runtime.block_on(self.client().perform_actions(actions)).unwrap();
    }

    /// Shows the page as on a system that is dark, or light.
    pub fn dark(&self, dark: bool) {
        let scheme = if dark { "dark" } else { "light" };
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.own(
            "goog/cdp/execute",
            &json!({ "cmd": "Emulation.setEmulatedMedia", "params": { "features": features } }),
        );
    }

    /// Asks the driver for what only this browser can do.
    fn own(&self, command: &str, body: &Value) -> Value {
        let asked = ureq::post(format!("{}/{command}", self.session)).send_json(body);
        let answer: Value = asked.unwrap().body_mut().read_json().unwrap();
        answer["value"].clone()
    }

    /// Fails where the page as it is now breaks a rule of WCAG 2.2 AA or of good practice.
    pub fn is_accessible(&self, what: &str) {
        self.ask(&std::fs::read_to_string(&self.axe).unwrap());
        let script = "const done = arguments[0]; axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', \
                      'wcag21aa', 'wcag22aa', 'best-practice'] }).then((found) => done(found.violations.map((v) => \
                      `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.target + ' ' + n.failureSummary).join('; ')}`)))";
        let found = self.runtime.block_on(self.client().execute_async(script, Vec::new())).unwrap();
        assert_eq!(found, json!([]), "{what}");
    }

    /// Fails where a script failed, or anything was asked of another place than the server. Answers that say no
    /// are told in the log, and are no failure.
    pub fn went_well(&self, address: &str) {
        let log = self.own("se/log", &json!({ "type": "browser" }));
        let failed: Vec<&Value> = log
            .as_array()
            .unwrap()
            .iter()
            .filter(|entry| entry["level"] == "SEVERE")
            .filter(|entry| !entry["message"].as_str().is_some_and(|m| m.contains("Failed to load resource")))
            .collect();
        assert!(failed.is_empty(), "{failed:#?}");
        let log = self.own("se/log", &json!({ "type": "performance" }));
        let asked: BTreeSet<String> = log
            .as_array()
            .unwrap()
            .iter()
            .map(|entry| serde_json::from_str(entry["message"].as_str().unwrap()).unwrap())
            .filter(|entry: &Value| entry["message"]["method"] == "Network.requestWillBeSent")
            .map(|entry| entry["message"]["params"]["request"]["url"].as_str().unwrap().to_owned())
            .filter(|url| !["data:", "blob:", "about:", "chrome:"].iter().any(|own| url.starts_with(own)))
            .collect();
        let elsewhere: Vec<_> = asked.iter().filter(|url| !url.starts_with(&format!("{address}/"))).collect();
        assert!(!asked.is_empty() && elsewhere.is_empty(), "{elsewhere:?}");
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        if let Some(client) = self.client.take() {
            let _ = self.runtime.block_on(client.close());
        }
        let _ = self.driver.kill();
        let _ = self.driver.wait();
    }
}

/// A driver at a port that is free, and where it answers.
fn start_driver(program: &Path) -> (Child, BufReader<ChildStdout>, String) {
    let mut driver =
        Command::new(program).arg("--port=0").stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let mut told = BufReader::new(driver.stdout.take().unwrap());
    let port = told.by_ref().lines().map_while(Result::ok).find_map(|line| {
        let (_, port) = line.split_once("successfully on port ")?;
        Some(port.trim().trim_end_matches('.').to_owned())
    });
    let address = format!("http://127.0.0.1:{}", port.unwrap_or_default());
    (driver, told, address)
}
