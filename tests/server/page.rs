//! The page's own files.

use super::{Served, drafted};

#[test]
fn the_page_and_everything_it_names_is_served_and_nothing_is_fetched_from_elsewhere() {
    let desk = drafted("Front elevation. Mailbox, replace.");
    let served = Served::over(&desk);
    let mut waiting = vec!["/".to_owned()];
    let mut seen = std::collections::BTreeSet::new();
    while let Some(path) = waiting.pop() {
        if !seen.insert(path.clone()) {
            continue;
        }
        let answer = served.get(&path);
        assert_eq!(answer.status, 200, "{path}");
        let text = String::from_utf8(answer.body).unwrap();
        for outside in ["http://", "https://", "//cdn"] {
            let named: Vec<&str> = text.lines().filter(|line| line.contains(outside)).collect();
            let named: Vec<_> = named.iter().filter(|line| !line.contains("www.w3.org/2000/svg")).collect();
            assert!(named.is_empty(), "{path} names something elsewhere: {named:?}");
        }
        let quoted = text.split(['"', '\'']).skip(1);
        for name in quoted.filter(|q| q.ends_with(".js") || q.ends_with(".css") || q.ends_with(".svg")) {
            let name = name.trim_start_matches("./").trim_start_matches("/page/").trim_start_matches("page/");
            waiting.push(format!("/page/{name}"));
        }
    }
    assert!(seen.len() > 5, "{seen:?}");
}
