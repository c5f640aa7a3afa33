//! Starts the page in the browser.

/// A small one: what a visitor downloads counts, and the page allocates little.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

fn main() {
    coilwright_web::start();
}
