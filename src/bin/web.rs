//! Thin: everything is in the library.
fn main() {
    marrowbook::web::start();
}
