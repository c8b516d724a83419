#include "pdf/image_object.h"

#include <algorithm>

#include "artwork/orientation.h"
#include "core/numbers.h"
#include "pdf/page_matrix.h"

namespace versolay {
namespace {

struct UnitSquare {};  // image space of PDF: 0..1, the first row of the image at y = 1

QPDFObjectHandle name(const char* text) { return QPDFObjectHandle::newName(text); }
QPDFObjectHandle integer(int value) { return QPDFObjectHandle::newInteger(value); }

const char* device_space(int components) {
  return components == 1 ? "/DeviceGray" : components == 3 ? "/DeviceRGB" : "/DeviceCMYK";
}

QPDFObjectHandle colour_space(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles) {
  if (image.icc_profile.empty()) return name(device_space(image.components));
  auto [place, is_new] = profiles.try_emplace(image.icc_profile);
  if (is_new) {
    auto stream = pdf.newStream(image.icc_profile);
    stream.getDict().replaceKey("/N", integer(image.components));
    stream.getDict().replaceKey("/Alternate", name(device_space(image.components)));
    place->second = stream;
  }
  return QPDFObjectHandle::newArray({name("/ICCBased"), place->second});
}

}  // namespace

QPDFObjectHandle image_object(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles) {
  auto stream = pdf.newStream();
  auto parameters = QPDFObjectHandle::newNull();
  if (image.coding == PixelCoding::png_rows) {
    parameters = QPDFObjectHandle::newDictionary();
    parameters.replaceKey("/Predictor", integer(15));
    parameters.replaceKey("/Colors", integer(image.components));
    parameters.replaceKey("/BitsPerComponent", integer(8));
    parameters.replaceKey("/Columns", integer(image.width_px));
  }
  const bool jpeg = image.coding == PixelCoding::jpeg;
  stream.replaceStreamData(image.data, name(jpeg ? "/DCTDecode" : "/FlateDecode"), parameters);
  stream.setFilterOnWrite(false);
  auto dictionary = stream.getDict();
  dictionary.replaceKey("/Type", name("/XObject"));
  dictionary.replaceKey("/Subtype", name("/Image"));
  dictionary.replaceKey("/Width", integer(image.width_px));
  dictionary.replaceKey("/Height", integer(image.height_px));
  dictionary.replaceKey("/BitsPerComponent", integer(8));
  dictionary.replaceKey("/ColorSpace", colour_space(pdf, image, profiles));
  if (image.inverted) {
    dictionary.replaceKey("/Decode", QPDFObjectHandle::parse("[1 0 1 0 1 0 1 0]"));
  }
  return stream;
}

std::string image_content(const PlacedImage& placed, int orientation,
                          const Affine<PdfPt, PageMm>& pt_from_page, const std::string& name) {
  Eigen::Matrix2d turn = Eigen::Matrix2d::Identity();
  Eigen::Matrix2d quarter;
  quarter << 0, -1, 1, 0;  // clockwise, because y points down
  for (int i = 0; i < placed.quarter_turns; ++i) turn = quarter * turn;
  const Eigen::Matrix2d size =
      Eigen::Vector2d(placed.width_mm, placed.height_mm).asDiagonal().toDenseMatrix();
  const Eigen::Matrix2d flip = Eigen::Vector2d(1, -1).asDiagonal().toDenseMatrix();
  const Eigen::Matrix2d linear = turn * size * seen_from_stored(orientation).cast<double>() * flip;
  const Affine<PageMm, UnitSquare> page_from_unit(
      linear, placed.centre.vec() - linear * Eigen::Vector2d(0.5, 0.5));

  const Point<PdfPt> low = pt_from_page({placed.crop.left_mm, placed.crop.bottom_mm});
  const Point<PdfPt> high = pt_from_page({placed.crop.right_mm, placed.crop.top_mm});
  std::string rectangle;
  for (double v : {low.x, low.y, high.x - low.x, high.y - low.y}) {
    rectangle += format_number(v, 9) + " ";
  }
  return "q " + rectangle + "re W n " + matrix_operands(pt_from_page * page_from_unit) + " cm " +
         name + " Do Q\n";
}

}  // namespace versolay
