#include <zlib.h>

#include "core/helper_process.h"
#include "support/scan_expect.h"

namespace versolay {
namespace {

using namespace scan_files;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Optional;

struct PdfPicture {
  std::string dictionary;  // entries besides Type
  std::string data;
};

struct PdfPage {
  double width_pt = 595.2;
  double height_pt = 841.92;
  std::vector<PdfPicture> pictures = {};
  std::string content = {};  // draws /P0, /P1 ...
};

/// A PDF with these pages, written out by hand. Source  ISO 32000-1:2008, 7.5 and 8.9.
std::string pdf_of(const std::vector<PdfPage>& pages) {
  std::string pdf = "%PDF-1.4\n";
  std::vector<std::size_t> offsets;
  const auto object = [&](const std::string& body) {
    offsets.push_back(pdf.size());
    pdf += std::to_string(offsets.size()) + " 0 obj\n" + body + "\nendobj\n";
    return offsets.size();
  };
  const auto stream = [&](const std::string& dictionary, const std::string& data) {
    return object("<<" + dictionary + " /Length " + std::to_string(data.size()) + ">>\nstream\n" +
                  data + "\nendstream");
  };
  std::string kids;
  std::size_t n_objects = 0;
  for (const PdfPage& page : pages) n_objects += page.pictures.size() + 2;
  const std::string tree = std::to_string(n_objects + 1) + " 0 R";
  for (const PdfPage& page : pages) {
    std::string names;
    for (std::size_t i = 0; i < page.pictures.size(); ++i) {
      const std::size_t id =
          stream("/Type /XObject " + page.pictures[i].dictionary, page.pictures[i].data);
      names += "/P" + std::to_string(i) + " " + std::to_string(id) + " 0 R ";
    }
    const std::size_t content = stream("", page.content);
    const std::size_t id = object(
        "<</Type /Page /Parent " + tree + " /MediaBox [0 0 " + std::to_string(page.width_pt) + " " +
        std::to_string(page.height_pt) + "] /Contents " + std::to_string(content) +
        " 0 R /Resources <</XObject <<" + names + ">>>>>>");
    kids += std::to_string(id) + " 0 R ";
  }
  object("<</Type /Pages /Count " + std::to_string(pages.size()) + " /Kids [" + kids + "]>>");
  const std::size_t catalog = object("<</Type /Catalog /Pages " + tree + ">>");
  const std::size_t table = pdf.size();
  pdf += "xref\n0 " + std::to_string(offsets.size() + 1) + "\n0000000000 65535 f \n";
  for (std::size_t offset : offsets) {
    std::string digits = std::to_string(offset);
    pdf += std::string(10 - digits.size(), '0') + digits + " 00000 n \n";
  }
  return pdf + "trailer\n<</Size " + std::to_string(offsets.size() + 1) + " /Root " +
         std::to_string(catalog) + " 0 R>>\nstartxref\n" + std::to_string(table) + "\n%%EOF\n";
}

std::string size_entries(const Picture& p, const std::string& space) {
  return "/Subtype /Image /Width " + std::to_string(p.width) + " /Height " +
         std::to_string(p.height) + " /BitsPerComponent " + std::to_string(p.bits) +
         " /ColorSpace /" + space;
}

PdfPicture flate_picture(const Picture& p) {
  std::string raw;
  for (int y = 0; y < p.height; ++y) {
    const auto row = packed_row(p, y, true);
    raw.append(row.begin(), row.end());
  }
  uLongf size = compressBound(static_cast<uLong>(raw.size()));
  std::string data(size, '\0');
  compress(reinterpret_cast<Bytef*>(data.data()), &size, reinterpret_cast<const Bytef*>(raw.data()),
           static_cast<uLong>(raw.size()));
  data.resize(size);
  const std::string space = p.channels == 1 ? "DeviceGray" : "DeviceRGB";
  return {size_entries(p, space) + " /Filter /FlateDecode", data};
}

/// A page that the picture fills, at 300 pixels per inch.
PdfPage full_page(const Picture& p, PdfPicture picture) {
  const double width = p.width * 72 / 300.0;
  const double height = p.height * 72 / 300.0;
  return {width,
          height,
          {std::move(picture)},
          "q " + std::to_string(width) + " 0 0 " + std::to_string(height) + " 0 0 cm /P0 Do Q"};
}

class PdfOfScans : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!run_helper({"pdfimages", "-v"}, {}).found) {
      GTEST_SKIP() << "pdfimages is not installed";
    }
  }
  void write(const std::vector<PdfPage>& pages) { write_bytes(path_, pdf_of(pages)); }

  Folder folder_;
  std::filesystem::path path_ = folder_ / "scans.pdf";
  Picture grey_ = draw_sheet(620, 877, 1, 8, 3);
  Picture rgb_ = draw_sheet(620, 877, 3, 8, 4);
};

TEST_F(PdfOfScans, GivesTheStoredPixelsOfPackedPictures) {
  const Picture ink = draw_sheet(621, 877, 1, 1, 5);
  write({full_page(grey_, flate_picture(grey_)), full_page(rgb_, flate_picture(rgb_)),
         full_page(ink, flate_picture(ink))});
  EXPECT_EQ(count_pages(path_), 3);
  EXPECT_EQ(largest_difference(load_page(path_, 1).grey, grey_), 0.0);
  EXPECT_LE(largest_difference(load_page(path_, 2).grey, rgb_), 1.0);
  const Scan third = load_page(path_, 3);
  EXPECT_EQ(largest_difference(third.grey, ink), 0.0);
  EXPECT_EQ(third.name(), "scans.pdf, page 3");
  EXPECT_THAT(codes(third.warnings), ElementsAre("scan_black_and_white"));
  EXPECT_THAT(third.dpi_x, Optional(DoubleNear(300.0, 0.05)));
  EXPECT_THAT(third.dpi_y, Optional(DoubleNear(300.0, 0.05)));
}

TEST_F(PdfOfScans, GivesTheSamePixelsAsTheJpegInside) {
  JpegOptions options{.in_colours = JCS_RGB, .stored_colours = JCS_YCbCr};
  options.density_unit = 1;
  options.x_density = options.y_density = 96;  // of no account inside a PDF
  write_jpeg(folder_ / "scan.jpg", rgb_, options);
  write({full_page(rgb_, {size_entries(rgb_, "DeviceRGB") + " /Filter /DCTDecode",
                          bytes_of(folder_ / "scan.jpg")})});
  const Scan scan = load_page(path_, 1);
  EXPECT_EQ(scan.grey.pixels, load_page(folder_ / "scan.jpg", 1).grey.pixels);
  EXPECT_THAT(scan.dpi_x, Optional(DoubleNear(300.0, 0.05)));
}

TEST_F(PdfOfScans, ResolutionOfAFilledPageIsFinerThanAWholeNumber) {
  PdfPage page = full_page(grey_, flate_picture(grey_));
  // 620 pixels over 149.2 pt are 299.196 per inch.
  page.width_pt = 149.2;
  page.content = "q 149.2 0 0 " + std::to_string(page.height_pt) + " 0 0 cm /P0 Do Q";
  write({page});
  EXPECT_THAT(load_page(path_, 1).dpi_x, Optional(DoubleNear(620 * 72 / 149.2, 0.001)));
}

TEST_F(PdfOfScans, AcceptsAPictureThatLiesSideways) {
  PdfPage page = full_page(grey_, flate_picture(grey_));
  std::swap(page.width_pt, page.height_pt);
  page.content = "q 0 " + std::to_string(page.height_pt) + " -" + std::to_string(page.width_pt) +
                 " 0 " + std::to_string(page.width_pt) + " 0 cm /P0 Do Q";
  write({page});
  const Scan scan = load_page(path_, 1);
  EXPECT_EQ(largest_difference(scan.grey, grey_), 0.0);  // as stored, not as shown
  EXPECT_THAT(scan.dpi_x, Optional(DoubleNear(300.0, 0.05)));
}

/// A packed picture with other entries than flate_picture() gives it.
PdfPicture packed_as(const Picture& p, const std::string& entries) {
  PdfPicture picture = flate_picture(p);
  picture.dictionary = "/Subtype /Image /Width " + std::to_string(p.width) + " /Height " +
                       std::to_string(p.height) + " /Filter /FlateDecode " + entries;
  return picture;
}

TEST_F(PdfOfScans, ReadsIndicesInvertedGreyAndNibbles) {
  const Picture nibbles = draw_sheet(621, 877, 1, 4, 6);
  std::string lookup;
  for (int i = 0; i < 16; ++i) {
    char entry[8];
    std::snprintf(entry, sizeof entry, "%02X%02X%02X", 255 - 15 * i, 15 * i, 128);
    lookup += entry;
  }
  write({full_page(nibbles, packed_as(nibbles,
                                      "/BitsPerComponent 4 /ColorSpace [/Indexed "
                                      "/DeviceRGB 15 <" +
                                          lookup + ">]")),
         full_page(grey_, packed_as(grey_,
                                    "/BitsPerComponent 8 /ColorSpace /DeviceGray "
                                    "/Decode [1 0]")),
         full_page(nibbles, packed_as(nibbles, "/BitsPerComponent 4 /ColorSpace /DeviceGray"))});
  EXPECT_LE(largest_difference(load_page(path_, 1).grey,
                               [&](int x, int y) {
                                 const double i = nibbles.at(x, y);
                                 return 0.299 * (255 - 15 * i) + 0.587 * 15 * i + 0.114 * 128;
                               }),
            1.0);
  EXPECT_EQ(largest_difference(load_page(path_, 2).grey,
                               [&](int x, int y) { return 255.0 - grey_.at(x, y); }),
            0.0);
  EXPECT_LE(largest_difference(load_page(path_, 3).grey, nibbles), 1.0);
}

TEST_F(PdfOfScans, FollowsMatricesAndForms) {
  PdfPage page = full_page(grey_, flate_picture(grey_));
  const std::string form = "q 2 0 0 2 5 5 cm " + page.content + " Q";
  PdfPicture as_form{
      "/Subtype /Form /BBox [0 0 9999 9999] /Matrix [0.5 0 0 0.5 0 0] "
      "/Resources <</XObject <</P0 1 0 R>>>>",
      form};
  page.pictures.push_back(as_form);
  page.content = "/P1 Do";
  write({page});
  const Scan scan = load_page(path_, 1);
  EXPECT_EQ(largest_difference(scan.grey, grey_), 0.0);
  EXPECT_THAT(scan.dpi_x, Optional(DoubleNear(300.0, 0.05)));
}

// A PNG file of such a page takes Poppler 20 s of CPU, four times what is allowed.
TEST_F(PdfOfScans, ReadsALargePageOfNoise) {
  Picture noise = draw_sheet(4960, 7016, 1, 8, 7);
  std::uint32_t state = 1;
  for (auto& sample : noise.samples) {
    state = state * 1664525u + 1013904223u;
    sample = static_cast<std::uint16_t>(sample / 2 + (state >> 26));
  }
  PdfPicture picture = flate_picture(noise);
  write({full_page(noise, picture)});
  EXPECT_EQ(largest_difference(load_page(path_, 1).grey, noise), 0.0);
}

TEST_F(PdfOfScans, RefusesPagesThatAreNotOneFullPicture) {
  const PdfPicture picture = flate_picture(grey_);
  const PdfPage full = full_page(grey_, picture);
  PdfPage none = full;
  none.pictures.clear();
  none.content = "0 0 10 10 re f";
  PdfPage two = full;
  two.pictures.push_back(picture);
  two.content += " q 50 0 0 50 0 0 cm /P1 Do Q";
  PdfPage small = full;
  small.content = "q 50 0 0 70 0 0 cm /P0 Do Q";
  write({none, two, small});
  EXPECT_THAT(refusal_of(path_, 1), HasSubstr("scans.pdf, page 1: scanned_page_empty"));
  EXPECT_THAT(refusal_of(path_, 2), HasSubstr("scanned_page_of_pictures pictures=2"));
  EXPECT_THAT(refusal_of(path_, 3),
              ::testing::ContainsRegex("scanned_page_partly_covered width_share=0.3[34]"));
  EXPECT_THAT(refusal_of(path_, 4), HasSubstr("no_such_scan_page pages=3 page=4"));
}

TEST_F(PdfOfScans, RefusesCmykAndPicturesAboveTheLimits) {
  const Picture cmyk = draw_sheet(62, 88, 4, 8);
  PdfPicture picture = flate_picture(cmyk);
  picture.dictionary = size_entries(cmyk, "DeviceCMYK") + " /Filter /FlateDecode";
  write({full_page(cmyk, picture), full_page(grey_, flate_picture(grey_))});
  EXPECT_THAT(refusal_of(path_, 1), HasSubstr("scan_in_cmyk"));
  EXPECT_THAT(refusal_of(path_, 2, {.max_pixels = 1000}),
              HasSubstr("scan_too_large width_px=620 height_px=877"));
}

TEST_F(PdfOfScans, CutAnywhereIsIncomplete) {
  write_jpeg(folder_ / "scan.jpg", grey_, {});
  const std::string whole =
      pdf_of({full_page(grey_, flate_picture(grey_)),
              full_page(grey_, {size_entries(grey_, "DeviceGray") + " /Filter /DCTDecode",
                                bytes_of(folder_ / "scan.jpg")})});
  for (std::size_t tenths = 1; tenths < 10; ++tenths) {
    write_bytes(path_, std::string_view(whole).substr(0, whole.size() * tenths / 10));
    EXPECT_THAT(refusal_of(path_, 1), kDamaged) << tenths;
  }
}

TEST_F(PdfOfScans, PictureDataThatEndEarlyAreDamage) {
  write_jpeg(folder_ / "scan.jpg", grey_, {});
  PdfPicture flate = flate_picture(grey_);
  PdfPicture jpeg{size_entries(grey_, "DeviceGray") + " /Filter /DCTDecode",
                  bytes_of(folder_ / "scan.jpg")};
  for (PdfPicture* picture : {&flate, &jpeg}) {
    picture->data.resize(picture->data.size() / 2);
    write({full_page(grey_, *picture)});
    EXPECT_THAT(refusal_of(path_, 1), kDamaged) << picture->dictionary;
  }
}

}  // namespace
}  // namespace versolay
