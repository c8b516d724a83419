#include "pdf/scanned_pages.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <qpdf/Pipeline.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <stdexcept>

#include "core/expect.h"
#include "pdf/page_form.h"
#include "pdf/unpacking_budget.h"

namespace versolay {
namespace {

using Colours = ScannedPicture::Colours;
using Packing = ScannedPicture::Packing;

constexpr int kMostPicturesListed = 1000;  // of a page: more say nothing new
constexpr int kDeepestForm = 8;            // forms within forms

struct PaintedPicture {
  ScannedPicture picture;
  QPDFObjectHandle stream;  // not initialized: within the contents
};

int integer_of(QPDFObjectHandle value, int otherwise = 0) {
  return value.isInteger() ? value.getIntValueAsInt() : otherwise;
}

int components_of(QPDFObjectHandle profile) {
  return profile.isStream() ? integer_of(profile.getDict().getKey("/N")) : 0;
}

Colours plain_colours(QPDFObjectHandle space) {
  const bool list = space.isArray() && space.getArrayNItems() > 0;
  QPDFObjectHandle family = list ? space.getArrayItem(0) : space;
  const std::string name = family.isName() ? family.getName() : "";
  if (name == "/DeviceGray" || name == "/CalGray") return Colours::grey;
  if (name == "/DeviceRGB" || name == "/CalRGB") return Colours::rgb;
  if (name == "/DeviceCMYK") return Colours::cmyk;
  if (name != "/ICCBased" || !list || space.getArrayNItems() < 2) return Colours::other;
  switch (components_of(space.getArrayItem(1))) {
    case 1:
      return Colours::grey;
    case 3:
      return Colours::rgb;
    case 4:
      return Colours::cmyk;
    default:
      return Colours::other;
  }
}

/// Red, green and blue of every index; empty where that is not known. [/Indexed base hival lookup],
/// ISO 32000-1, 8.6.6.3.
std::vector<std::uint8_t> palette_of(QPDFObjectHandle space) {
  const Colours base = plain_colours(space.getArrayItem(1));
  const auto entries = static_cast<std::size_t>(integer_of(space.getArrayItem(2), -1) + 1);
  QPDFObjectHandle lookup = space.getArrayItem(3);
  std::string bytes;
  if (lookup.isString()) bytes = lookup.getStringValue();
  if (lookup.isStream()) {
    const auto data = lookup.getStreamData(qpdf_dl_generalized);
    bytes.assign(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
  }
  if (base != Colours::grey && base != Colours::rgb) return {};
  const std::size_t channels = base == Colours::rgb ? 3 : 1;
  if (entries == 0 || entries > 256 || bytes.size() < entries * channels) return {};
  std::vector<std::uint8_t> palette;
  for (std::size_t i = 0; i < 3 * entries; ++i) {
    const std::size_t from = channels == 3 ? i : i / 3;
    palette.push_back(static_cast<std::uint8_t>(bytes[from]));
  }
  return palette;
}

void set_colours(ScannedPicture& picture, QPDFObjectHandle space) {
  const bool indexed = space.isArray() && space.getArrayNItems() == 4 &&
                       space.getArrayItem(0).isNameAndEquals("/Indexed");
  if (indexed) {
    picture.palette = palette_of(space);
    picture.colours = picture.palette.empty() ? Colours::other : Colours::palette;
  } else {
    picture.colours = plain_colours(space);
  }
}

/// Packings that lose nothing and grow row by row, so that what comes out can be counted.
bool unpacks_to_samples(const std::vector<std::string>& filters) {
  return std::all_of(filters.begin(), filters.end(), [](const std::string& filter) {
    return filter == "/FlateDecode" || filter == "/Fl" || filter == "/LZWDecode" ||
           filter == "/LZW" || filter == "/RunLengthDecode" || filter == "/RL" ||
           filter == "/ASCII85Decode" || filter == "/A85" || filter == "/ASCIIHexDecode" ||
           filter == "/AHx";
  });
}

Packing packing_of(QPDFObjectHandle filter) {
  std::vector<std::string> names;
  if (filter.isName()) names.push_back(filter.getName());
  if (filter.isArray()) {
    for (QPDFObjectHandle one : filter.getArrayAsVector()) {
      names.push_back(one.isName() ? one.getName() : "");
    }
  }
  if (names.size() == 1 && (names[0] == "/DCTDecode" || names[0] == "/DCT")) return Packing::jpeg;
  return unpacks_to_samples(names) ? Packing::samples : Packing::other;
}

/// Decode of what PNG and JPEG files have, too, or of grey turned over; nullopt: something else.
std::optional<bool> inverted_by(QPDFObjectHandle decode, const ScannedPicture& picture) {
  if (!decode.isArray()) return false;
  const double full =
      picture.colours == Colours::palette ? static_cast<double>((1 << picture.bits) - 1) : 1.0;
  bool usual = true;
  bool over = picture.colours == Colours::grey;
  for (int i = 0; i < decode.getArrayNItems(); ++i) {
    QPDFObjectHandle item = decode.getArrayItem(i);
    const double value = item.isNumber() ? item.getNumericValue() : -1.0;
    usual = usual && value == (i % 2 == 0 ? 0.0 : full);
    over = over && value == (i % 2 == 0 ? 1.0 : 0.0);
  }
  if (usual || over) return over;
  return std::nullopt;
}

ScannedPicture picture_of(QPDFObjectHandle stream, QPDFObjectHandle spaces) {
  QPDFObjectHandle entries = stream.getDict();
  ScannedPicture picture;
  picture.width_px = integer_of(entries.getKey("/Width"));
  picture.height_px = integer_of(entries.getKey("/Height"));
  picture.bits = integer_of(entries.getKey("/BitsPerComponent"), 8);
  QPDFObjectHandle stencil = entries.getKey("/ImageMask");
  if (stencil.isBool() && stencil.getBoolValue()) picture.kind = ScannedPicture::Kind::stencil;
  QPDFObjectHandle space = entries.getKey("/ColorSpace");
  if (space.isName() && spaces.isDictionary() && spaces.hasKey(space.getName())) {
    space = spaces.getKey(space.getName());
  }
  set_colours(picture, space);
  picture.packing = packing_of(entries.getKey("/Filter"));
  const bool bits_known = picture.bits == 1 || picture.bits == 2 || picture.bits == 4 ||
                          picture.bits == 8 ||
                          (picture.bits == 16 && picture.colours != Colours::palette);
  const auto inverted = inverted_by(entries.getKey("/Decode"), picture);
  if (!bits_known || !inverted) picture.packing = Packing::other;
  picture.inverted = inverted.value_or(false);
  return picture;
}

struct Matrix {
  double a = 1.0, b = 0.0, c = 0.0, d = 1.0;  // of ISO 32000-1, 8.3.4; where it is does not matter

  /// First `inner`, then this.
  Matrix after(const Matrix& inner) const {
    return {inner.a * a + inner.b * c, inner.a * b + inner.b * d, inner.c * a + inner.d * c,
            inner.c * b + inner.d * d};
  }
};

/// Follows the contents of a page, as far as pictures are concerned.
class Painter : public QPDFObjectHandle::ParserCallbacks {
 public:
  Painter(QPDFObjectHandle resources, Matrix matrix, int depth, ContentBudget& budget,
          std::vector<PaintedPicture>& painted)
      : resources_(std::move(resources)),
        matrix_(matrix),
        depth_(depth),
        budget_(budget),
        painted_(painted) {}

  void handleObject(QPDFObjectHandle object, std::size_t, std::size_t) override {
    if (!object.isOperator()) {
      if (operands_.size() == 6) operands_.erase(operands_.begin());
      operands_.push_back(object);
      return;
    }
    const std::string name = object.getOperatorValue();
    if (name == "q") saved_.push_back(matrix_);
    if (name == "Q" && !saved_.empty()) {
      matrix_ = saved_.back();
      saved_.pop_back();
    }
    if (name == "cm") change_matrix();
    if (name == "Do" && !operands_.empty() && operands_.back().isName()) {
      paint(operands_.back().getName());
    }
    if (name == "EI") add({}, {});  // within the contents: nothing of it is read
    operands_.clear();
  }
  void handleEOF() override {}

 private:
  void change_matrix() {
    if (operands_.size() != 6) return;
    for (QPDFObjectHandle& value : operands_) {
      if (!value.isNumber()) return;
    }
    const auto value = [&](std::size_t i) { return operands_[i].getNumericValue(); };
    matrix_ = matrix_.after({value(0), value(1), value(2), value(3)});
  }

  void add(ScannedPicture picture, QPDFObjectHandle stream) {
    if (painted_.size() >= kMostPicturesListed) return;
    picture.across_pt = std::hypot(matrix_.a, matrix_.b);
    picture.down_pt = std::hypot(matrix_.c, matrix_.d);
    painted_.push_back({std::move(picture), std::move(stream)});
  }

  void paint(const std::string& name) {
    QPDFObjectHandle objects = resources_.getKey("/XObject");
    if (!objects.isDictionary()) return;
    QPDFObjectHandle object = objects.getKey(name);
    if (!object.isStream()) return;
    QPDFObjectHandle subtype = object.getDict().getKey("/Subtype");
    if (subtype.isNameAndEquals("/Form")) paint_form(object);
    if (!subtype.isNameAndEquals("/Image")) return;
    add(picture_of(object, resources_.getKey("/ColorSpace")), object);
    for (const char* mask : {"/SMask", "/Mask"}) {
      if (!object.getDict().getKey(mask).isStream()) continue;
      ScannedPicture picture;
      picture.kind = ScannedPicture::Kind::mask;
      add(picture, {});
    }
  }

  void paint_form(QPDFObjectHandle form) {
    if (depth_ >= kDeepestForm || painted_.size() >= kMostPicturesListed) return;
    Matrix matrix = matrix_;
    QPDFObjectHandle own = form.getDict().getKey("/Matrix");
    if (own.isMatrix()) {
      const auto m = own.getArrayAsMatrix();
      matrix = matrix_.after({m.a, m.b, m.c, m.d});
    }
    QPDFObjectHandle resources = form.getDict().getKey("/Resources");
    if (!resources.isDictionary()) resources = resources_;
    count_content(form, budget_);
    Painter painter(resources, matrix, depth_ + 1, budget_, painted_);
    form.parseAsContents(&painter);
  }

  QPDFObjectHandle resources_;
  Matrix matrix_;
  int depth_;
  ContentBudget& budget_;
  std::vector<PaintedPicture>& painted_;
  std::vector<Matrix> saved_;
  std::vector<QPDFObjectHandle> operands_;
};

/// Cuts what comes by into rows, and stops what goes on beyond the last.
class RowCutter : public Pipeline {
 public:
  RowCutter(std::size_t row_bytes, int rows, const ScannedPages::Row& row)
      : Pipeline("rows", nullptr), left_(rows), row_(row), bytes_(row_bytes) {}

  void write(const unsigned char* data, std::size_t size) override {
    while (size > 0) {
      if (left_ == 0) return take_surplus(size);
      const std::size_t taken = std::min(size, bytes_.size() - filled_);
      std::copy_n(data, taken, bytes_.begin() + static_cast<std::ptrdiff_t>(filled_));
      filled_ += taken;
      data += taken;
      size -= taken;
      if (filled_ < bytes_.size()) return;
      row_(bytes_.data());
      filled_ = 0;
      --left_;
    }
  }
  void finish() override {}
  bool complete() const { return left_ == 0 && !too_much_; }

 private:
  /// Writers end their data with a line break or two.
  void take_surplus(std::size_t size) {
    constexpr std::size_t kHarmless = 16;
    surplus_ += size;
    too_much_ = surplus_ > kHarmless;
    if (too_much_) throw std::runtime_error("more samples than the picture has");
  }

  int left_;
  const ScannedPages::Row& row_;
  std::vector<unsigned char> bytes_;
  std::size_t filled_ = 0;
  std::size_t surplus_ = 0;
  bool too_much_ = false;
};

}  // namespace

int ScannedPicture::channels() const {
  return colours == Colours::rgb ? 3 : colours == Colours::cmyk ? 4 : 1;
}

std::size_t ScannedPicture::row_bytes() const {
  return (static_cast<std::size_t>(width_px) * static_cast<std::size_t>(channels() * bits) + 7) / 8;
}

struct ScannedPages::Open {
  explicit Open(const std::string& file) : unpacking(file), contents(file) {}

  std::vector<PaintedPicture> painted(int number) {
    QPDFPageObjectHelper& page = page_at(number);
    for (auto& stream : page.getObjectHandle().getPageContents()) count_content(stream, contents);
    std::vector<PaintedPicture> pictures;
    Painter painter(page.getAttribute("/Resources", false), {}, 0, contents, pictures);
    page.parseContents(&painter);
    unpacking.require_kept();
    return pictures;
  }

  PaintedPicture only_picture(int number, Packing packing) {
    std::vector<PaintedPicture> all = painted(number);
    expect(all.size() == 1 && all.front().picture.packing == packing);
    return all.front();
  }

  QPDFPageObjectHelper& page_at(int number) {
    return pages.at(static_cast<std::size_t>(number) - 1);
  }

  UnpackingBudget unpacking;
  ContentBudget contents;
  QPDF pdf;
  std::vector<QPDFPageObjectHelper> pages;
};

ScannedPages::ScannedPages(const std::string& file) : open_(std::make_unique<Open>(file)) {
  open_->pdf.setSuppressWarnings(true);
  open_->pdf.processFile(file.c_str());
  open_->pages = QPDFPageDocumentHelper(open_->pdf).getAllPages();
  open_->unpacking.require_kept();
}

ScannedPages::~ScannedPages() = default;

int ScannedPages::pages() const { return static_cast<int>(open_->pages.size()); }

ScannedPages::Size ScannedPages::size(int page) {
  const PdfBox box = visible_box(open_->page_at(page));
  return {box.urx - box.llx, box.ury - box.lly};
}

std::vector<ScannedPicture> ScannedPages::pictures(int page) {
  std::vector<ScannedPicture> pictures;
  for (PaintedPicture& one : open_->painted(page)) pictures.push_back(std::move(one.picture));
  return pictures;
}

bool ScannedPages::read_rows(int page, const Row& row) {
  PaintedPicture painted = open_->only_picture(page, Packing::samples);
  open_->unpacking.close();  // the rows are counted by themselves
  RowCutter rows(painted.picture.row_bytes(), painted.picture.height_px, row);
  const bool whole = painted.stream.pipeStreamData(&rows, 0, qpdf_dl_specialized, true);
  return whole && rows.complete();
}

std::string ScannedPages::jpeg(int page) {
  const auto data = open_->only_picture(page, Packing::jpeg).stream.getRawStreamData();
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace versolay
