#!/usr/bin/env python3
"""Measure how soon the review page is there and how soon an act is answered, on 1,500 lines of two hours.

    python3 benches/review/measure.py PROGRAM [--changes N]

PROGRAM is the release build of eavesdraft. An invented walk is drafted into a folder of its own and served; a browser
without a window opens the page ten times and makes N changes with keys. Told is, in milliseconds:

  page open     from asking for the address until every line is drawn and one is chosen, the frame after it painted
  words shown   from asking for the address until the last word of the transcript is drawn beside the lines
  act, server   from sending an act until its answer is there, over HTTP alone
  act, page     from the key until the frame that shows the act done is painted

Goals: open in less than 1,000, 95 of 100 changes in less than 50. Needs Chromium, chromedriver and requirements.txt.
"""
import argparse, json, pathlib, shutil, statistics, subprocess, tempfile, time, urllib.request

from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.action_chains import ActionChains

ITEMS = ("coach lights, hose bibs, shutters, window screens, downspouts, dryer vents, gas meters, electric meters, "
         "mailboxes, satellite dishes, house numbers, door bells, security cameras, gable vents, window wraps, "
         "storm doors, entry doors, overhead doors, hose reels, outlets").split(", ")
NUMBERS = "two three four five six seven eight".split()
WORKS = ["replace", "detach and reset", "repair", "paint"]
SIDES = ["Front", "Right", "Rear", "Left"]
LINES = 1500


def walk():
    phrases = []
    for n in range(LINES):
        turn, item = divmod(n, len(ITEMS))
        if item == 0:
            phrases.append(f"{SIDES[turn % 4]} elevation.")
        if turn % 3 == 0 and item == 7:
            phrases.append("Gutter, eleven foot, no wait, seven foot, replace.")
        else:
            phrases.append(f"{NUMBERS[(turn + item) % 7]} {ITEMS[item]}, {WORKS[(turn // 4 + item) % 4]}.")
    step = 7200 / len(phrases)

    def clock(at):
        return f"{int(at) // 3600:02}:{int(at) // 60 % 60:02}:{at % 60:06.3f}"

    cues = [f"{clock(n * step)} --> {clock(n * step + 0.9 * step)}\n{words}\n" for n, words in enumerate(phrases)]
    return "WEBVTT\n\n" + "\n".join(cues)


def asked(address, body=None):
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(address, data=data, headers={"content-type": "application/json"} if data else {})
    return json.load(urllib.request.urlopen(request))


def told(name, seconds):
    times = sorted(1000 * s for s in seconds)
    at = times[min(len(times) - 1, int(0.95 * len(times)))]
    print(f"{name:12} median {statistics.median(times):7.1f}   95th {at:7.1f}   most {times[-1]:7.1f}   of {len(times)}")


def over_http(recording, changes):
    """Quantities changed one after the other, each with its answer waited for."""
    lines = [line for line in asked(recording)["lines"] if line["line"]["item"] != "gutter"]
    taken = []
    for n in range(changes):
        line = lines[7 * n % len(lines)]
        command = {"do": "change", "line": line["id"], "fields": {"quantity": str(n % 30 + 1)}}
        begun = time.perf_counter()
        answer = asked(f"{recording}/events", {"who": "Bea", "seen": {line["id"]: line["version"]}, "command": command})
        taken.append(time.perf_counter() - begun)
        line["version"] = answer["event"]
    return taken


LOOK = """
const [selector, count, done] = arguments;
const look = () => document.querySelectorAll(selector).length >= count && document.querySelector('.line.chosen')
  ? requestAnimationFrame(() => setTimeout(() => done(performance.now() / 1000)))
  : setTimeout(look, 1);
look();
"""

# From the key, as the page gets it, until the frame after the head tells another number is painted.
WATCH = """
window.taken = [];
addEventListener('keydown', (e) => {
  const begun = e.timeStamp, before = document.querySelector('[data-progress]').textContent;
  const look = new MutationObserver(() => {
    if (document.querySelector('[data-progress]').textContent === before) return;
    look.disconnect();
    requestAnimationFrame(() => setTimeout(() => window.taken.push((performance.now() - begun) / 1000)));
  });
  look.observe(document.getElementById('head'), { childList: true, subtree: true, characterData: true });
}, true);
"""


def in_browser(address, changes):
    options = webdriver.ChromeOptions()
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--window-size=1400,900"):
        options.add_argument(argument)
    driver = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
    try:
        driver.get(address)
        driver.execute_script("localStorage.setItem('eavesdraft.who', 'Ann')")
        opened, words, taken = [], [], []
        for _ in range(10):
            driver.get("about:blank")
            driver.get(address)
            opened.append(driver.execute_async_script(LOOK, ".line", LINES))
            words.append(driver.execute_async_script(LOOK, "[data-word]", all_words(address)))
        driver.execute_script(WATCH)
        for n in range(changes):
            # A flagged line is kept, and the same change is undone: there are fewer flagged lines than changes.
            ActionChains(driver).send_keys("au"[n % 2]).perform()
            end = time.time() + 10
            while driver.execute_script("return window.taken.length") <= n and time.time() < end:
                time.sleep(0.01)
        taken = driver.execute_script("return window.taken")
        return opened, words, taken
    finally:
        driver.quit()


def all_words(address):
    recording = asked(f"{address}api/queue")["recordings"][0]["id"]
    return len(asked(f"{address}api/recordings/{recording}/words")["words"])


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", type=pathlib.Path)
    parser.add_argument("--changes", type=int, default=100)
    args = parser.parse_args()
    program = args.program.resolve()
    with tempfile.TemporaryDirectory() as folder:
        pathlib.Path(folder, "walk.vtt").write_text(walk())
        subprocess.run([program, "draft", "walk.vtt"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
        server = subprocess.Popen([program, "review", ".", "--no-browser"], cwd=folder, stdout=subprocess.PIPE,
                                  stderr=subprocess.DEVNULL, text=True)
        try:
            address = server.stdout.readline().strip()
            recording = asked(f"{address}api/queue")["recordings"][0]
            assert recording["lines"] == LINES, recording
            served = over_http(f"{address}api/recordings/{recording['id']}", args.changes)
            opened, words, page = in_browser(address, args.changes)
        finally:
            server.terminate()
            server.wait()
    for name, seconds in (("page open", opened), ("words shown", words), ("act, server", served), ("act, page", page)):
        told(name, seconds)


if __name__ == "__main__":
    main()
