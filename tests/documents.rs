//! What README shows is what the program prints.
//!
//! A `console` block holds commands after `$` and their output; a line `...` stands for any
//! number of lines.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use util::Folder;

/// Commands with the lines that follow them.
fn shown(text: &str) -> Vec<(String, Vec<String>)> {
    let mut all: Vec<(String, Vec<String>)> = Vec::new();
    let mut inside = false;
    for line in text.lines() {
        match line {
            "```console" => inside = true,
            "```" => inside = false,
            _ if !inside => {}
            _ => match (line.strip_prefix("$ faceside "), all.last_mut()) {
                (Some(command), _) => all.push((command.to_owned(), Vec::new())),
                (None, Some((_, lines))) => lines.push(line.to_owned()),
                (None, None) => panic!("output before a command: {line}"),
            },
        }
    }
    all
}

/// Whether the lines stand in the output, `...` for any number of others.
fn stands(shown: &[String], output: &[&str]) -> bool {
    match shown.split_first() {
        None => output.iter().all(|line| line.trim().is_empty()),
        Some((gap, rest)) if gap == "..." => {
            (0..=output.len()).any(|skip| rest.is_empty() || stands(rest, &output[skip..]))
        }
        Some((line, rest)) => {
            let same = output
                .first()
                .is_some_and(|first| first.trim_end() == line.trim_end());
            same && stands(rest, &output[1..])
        }
    }
}

#[test]
fn readme_shows_what_the_program_prints() {
    let readme = std::fs::read_to_string(util::here().join("README.md")).unwrap();
    let examples = shown(&readme);
    assert!(examples.len() >= 5, "{examples:?}");
    for (command, lines) in examples {
        let arguments: Vec<&str> = command.split_whitespace().collect();
        let output = Folder::empty().run(&arguments).out();
        let output: Vec<&str> = output.lines().collect();
        assert!(
            stands(&lines, &output),
            "faceside {command}\n{}",
            output.join("\n")
        );
    }
}

#[test]
fn the_two_commands_of_readme_exist() {
    let readme = std::fs::read_to_string(util::here().join("README.md")).unwrap();
    assert!(readme.contains("cargo run -- print") && readme.contains("bash .ci/run"));
    assert!(util::here().join(".ci/run").is_file());
}
