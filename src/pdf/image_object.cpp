#include "pdf/image_object.h"

#include <algorithm>
#include <memory>
#include <qpdf/Pipeline.hh>

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

/// Hands the coded pixels over when they are written.
class CodedPixels : public QPDFObjectHandle::StreamDataProvider {
 public:
  explicit CodedPixels(const CodedImage& image) : image_(image) {}
  void provideStreamData(QPDFObjGen const&, Pipeline* pipeline) override {
    const std::string data = coded_data(image_);
    pipeline->write(reinterpret_cast<const unsigned char*>(data.data()), data.size());
    pipeline->finish();
  }

 private:
  const CodedImage& image_;
};

QPDFObjectHandle space_of_samples(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles) {
  auto space = colour_space(pdf, image, profiles);
  if (image.palette.empty()) return space;
  const auto last = static_cast<int>(image.palette.size() / 3) - 1;
  return QPDFObjectHandle::newArray(
      {name("/Indexed"), space, integer(last), QPDFObjectHandle::newString(image.palette)});
}

std::string rectangle(const PageRect& r, const Affine<PdfPt, PageMm>& pt_from_page) {
  const Point<PdfPt> low = pt_from_page({r.left_mm, r.bottom_mm});
  const Point<PdfPt> high = pt_from_page({r.right_mm, r.top_mm});
  std::string operands;
  for (double v : {low.x, low.y, high.x - low.x, high.y - low.y}) {
    operands += format_number(v, 9) + " ";
  }
  return operands + "re";
}

}  // namespace

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

QPDFObjectHandle image_object(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles) {
  auto stream = pdf.newStream();
  auto parameters = QPDFObjectHandle::newNull();
  if (image.coding == PixelCoding::png_rows) {
    parameters = QPDFObjectHandle::newDictionary();
    parameters.replaceKey("/Predictor", integer(15));
    parameters.replaceKey("/Colors", integer(image.palette.empty() ? image.components : 1));
    parameters.replaceKey("/BitsPerComponent", integer(image.bits));
    parameters.replaceKey("/Columns", integer(image.width_px));
  }
  const bool jpeg = image.coding == PixelCoding::jpeg;
  stream.replaceStreamData(std::make_shared<CodedPixels>(image),
                           name(jpeg ? "/DCTDecode" : "/FlateDecode"), parameters);
  stream.setFilterOnWrite(false);
  auto dictionary = stream.getDict();
  dictionary.replaceKey("/Type", name("/XObject"));
  dictionary.replaceKey("/Subtype", name("/Image"));
  dictionary.replaceKey("/Width", integer(image.width_px));
  dictionary.replaceKey("/Height", integer(image.height_px));
  dictionary.replaceKey("/BitsPerComponent", integer(image.bits));
  dictionary.replaceKey("/ColorSpace", space_of_samples(pdf, image, profiles));
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

  return "q " + rectangle(placed.crop, pt_from_page) + " W n " +
         matrix_operands(pt_from_page * page_from_unit) + " cm " + name + " Do Q\n";
}

std::string field_content(const ColourField& field, const Affine<PdfPt, PageMm>& pt_from_page,
                          const std::string& name) {
  std::string colour;
  for (double v : field.colour) colour += format_number(v, 6) + " ";
  return "q " + name + " cs " + colour + "sc " + rectangle(field.area, pt_from_page) + " f Q\n";
}

}  // namespace versolay
