//! `manual`: the manual page, with the options of every command.

use clap::CommandFactory;
use clap_mangen::Man;

use super::{Cli, Failure, Outcome, Output, OutputArgs};

/// Writes the manual page.
///
/// # Errors
/// Where it cannot be written.
pub(super) fn run(args: &OutputArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.as_deref())?;
    let page = page().map_err(|error| Failure::new(format!("cannot lay out the manual page: {error}")))?;
    output.write(&page)?;
    Ok(Outcome::Holds)
}

fn page() -> std::io::Result<String> {
    let mut cli = Cli::command();
    cli.build();
    let mut page = Vec::new();
    let whole = Man::new(cli.clone());
    whole.render_title(&mut page)?;
    whole.render_name_section(&mut page)?;
    whole.render_synopsis_section(&mut page)?;
    whole.render_description_section(&mut page)?;
    for command in cli.get_subcommands().filter(|command| command.get_name() != "help") {
        let title = format!(".SH \"{}\"\n", command.get_name().to_uppercase());
        page.extend(title.into_bytes());
        let mut sections = Vec::new();
        let command = Man::new(command.clone());
        command.render_synopsis_section(&mut sections)?;
        command.render_description_section(&mut sections)?;
        command.render_options_section(&mut sections)?;
        command.render_extra_section(&mut sections)?;
        // Inside the section of the command these are sections of their own.
        let sections = String::from_utf8_lossy(&sections).replace(".SH EXTRA", ".SH EXAMPLE");
        page.extend(sections.replace(".SH ", ".SS ").into_bytes());
    }
    whole.render_extra_section(&mut page)?;
    whole.render_version_section(&mut page)?;
    Ok(String::from_utf8_lossy(&page).replace(".SH EXTRA", ".SH EXAMPLES"))
}
