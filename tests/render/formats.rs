use super::sample;
use lanecap::report::{Format, render};
#[test]
fn show() {
    println!("{}", render(&sample::all(), Format::Table));
    println!("{}", render(&sample::all(), Format::Markdown));
    println!("{}", render(&sample::all(), Format::Csv));
}
