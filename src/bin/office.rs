//! Thin: everything is in the library.
fn main() {
    std::process::exit(marrowbook::cli::run(std::env::args_os()));
}
