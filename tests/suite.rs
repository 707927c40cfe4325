//! The one integration binary.
#[test]
fn tmp() {
    for f in ["/tmp/a.lanes", "/tmp/bad.lanes"] {
        let root = lanecap::sheet::Loaded {
            identity: f.into(),
            name: f.into(),
            bytes: std::fs::read(f).unwrap(),
        };
        let g = lanecap::sheet::gather(root, &mut |_, _| {
            Err(lanecap::sheet::LoadFault { message: "no".into() })
        });
        match lanecap::model::read(&g) {
            Ok(p) => println!("{p:#?}"),
            Err(e) => {
                for d in e {
                    println!(
                        "{}:{} [{}] {} | {:?} | {:?}",
                        g.sources.line(d.primary.0),
                        g.sources.files[0].column(d.primary.0.start),
                        d.code,
                        d.message,
                        &g.sources.files[0].text[d.primary.0.start as usize..d.primary.0.end as usize],
                        d.help
                    );
                }
            }
        }
    }
}
