//! The image is a picture of the same size and not blank.

use super::{data, fixtures};
use lanecap::curve::Show;
use lanecap::picture::png;

#[test]
fn the_image_decodes_and_is_not_blank() {
    let (_, lane) = fixtures().remove(0);
    for show in Show::ALL {
        let file = png(&data(&lane, show)).unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(&file)).read_info().unwrap();
        let mut image = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut image).unwrap();
        let height = if show == Show::Reflection { 1280 } else { 960 };
        assert_eq!((info.width, info.height), (1600, height));
        assert_eq!(info.color_type, png::ColorType::Rgb);
        let dark = image.chunks_exact(3).filter(|pixel| pixel.iter().all(|c| *c < 100)).count();
        let paper = image.chunks_exact(3).filter(|pixel| pixel.iter().all(|c| *c == 255)).count();
        assert!(dark > 2000 && paper > 100_000, "{show:?}: {dark} dark, {paper} white");
        let blue = image.chunks_exact(3).filter(|pixel| pixel[2] > pixel[0].saturating_add(60)).count();
        assert!(blue > 500, "{show:?}: {blue} of the fitted line");
    }
}
