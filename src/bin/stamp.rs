//! Thin: everything is in the library.
fn main() -> std::process::ExitCode {
    marrowbook::cli::stamp::main()
}
