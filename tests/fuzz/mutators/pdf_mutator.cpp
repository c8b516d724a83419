// PDFs by their objects: qpdf takes the file apart and writes it again, so that the cross-reference
// table is right and only what was changed is wrong.
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

#include "mutators/mutation.h"

namespace versolay::fuzz {
namespace {

using Handle = QPDFObjectHandle;

const std::vector<std::string> kKeys = {"/Rotate",
                                        "/UserUnit",
                                        "/MediaBox",
                                        "/CropBox",
                                        "/TrimBox",
                                        "/BleedBox",
                                        "/ArtBox",
                                        "/Annots",
                                        "/Resources",
                                        "/Parent",
                                        "/Kids",
                                        "/Count",
                                        "/Contents",
                                        "/Filter",
                                        "/Type",
                                        "/Subtype",
                                        "/AcroForm",
                                        "/DecodeParms",
                                        "/NeedAppearances",
                                        "/Fields",
                                        "/AP",
                                        "/AS",
                                        "/N",
                                        "/F",
                                        "/FT",
                                        "/V",
                                        "/DA",
                                        "/DR",
                                        "/Rect",
                                        "/Matrix",
                                        "/BBox",
                                        "/XObject",
                                        "/Font",
                                        "/ExtGState",
                                        "/Group",
                                        "/SMask",
                                        "/Width",
                                        "/Height",
                                        "/Encrypt",
                                        "/Pages",
                                        "/OCProperties"};

const std::vector<std::string> kContents = {"Q Q Q Q q q q",
                                            "1e30 0 0 1 0 0 cm",
                                            "BT /F1 12 Tf (x) Tj",
                                            "/Fx Do /Im0 Do",
                                            "BI /W 1 /H 1 /BPC 8 /CS /G ID x EI",
                                            "q 0 0 0 0 0 0 cm Q",
                                            "[ << (",
                                            "99999999999999999999 0 0 1 0 0 cm",
                                            "BMC BDC EMC EMC EMC",
                                            "",
                                            "0 0 m 1e308 1e308 l S",
                                            "BI ID EI EI EI",
                                            "q\nQ Q\nq"};

std::string some_value(Dice& dice) {
  static const std::vector<std::string> kValues = {"null",
                                                   "true",
                                                   "0",
                                                   "-1",
                                                   "1",
                                                   "90",
                                                   "45",
                                                   "-90",
                                                   "36000000000",
                                                   "2147483648",
                                                   "0.001",
                                                   "99999999999999999999999999",
                                                   "0.00000000000000000000000001",
                                                   "-1.5",
                                                   "/Name",
                                                   "/Page",
                                                   "/Pages",
                                                   "/FlateDecode",
                                                   "/LZWDecode",
                                                   "/DCTDecode",
                                                   "/RunLengthDecode",
                                                   "/ASCII85Decode",
                                                   "/ASCIIHexDecode",
                                                   "/JBIG2Decode",
                                                   "/Crypt",
                                                   "/Widget",
                                                   "/Tx",
                                                   "/Btn",
                                                   "/On",
                                                   "(text)",
                                                   "()",
                                                   "<ff>",
                                                   "[]",
                                                   "<< >>",
                                                   "[0 0 0 0]",
                                                   "[0 0 612 792]",
                                                   "[612 792 0 0]",
                                                   "[0 0 1e9 1]",
                                                   "[0 0 0.001 0.001]",
                                                   "[-1 -1]",
                                                   "[[[[]]]]",
                                                   "[/FlateDecode /FlateDecode /FlateDecode]",
                                                   "<< /Predictor 12 /Columns 1000000000 >>",
                                                   "<< /Predictor 2 /Colors 99 >>",
                                                   "[1 0 0 1 0 0]",
                                                   "[0 0 0 0 0 0]",
                                                   "[1e30 0 0 1e30 0 0]",
                                                   "<< /N << /On null >> >>"};
  return dice.pick(kValues);
}

Handle another(const std::vector<Handle>& all, Dice& dice) {
  if (dice.one_in(3)) return dice.pick(all);  // by reference: circles, wrong kinds
  return Handle::parse(some_value(dice));
}

void change_dictionary(Handle dictionary, const std::vector<Handle>& all, Dice& dice) {
  const auto keys = dictionary.getKeys();
  const std::vector<std::string> own(keys.begin(), keys.end());
  if (own.empty() || dice.one_in(3)) {
    dictionary.replaceKey(dice.pick(kKeys), another(all, dice));
  } else if (dice.one_in(3)) {
    dictionary.removeKey(dice.pick(own));
  } else {
    dictionary.replaceKey(dice.pick(own), another(all, dice));
  }
}

void change_array(Handle array, const std::vector<Handle>& all, Dice& dice) {
  const int items = array.getArrayNItems();
  const int at = static_cast<int>(dice.roll(static_cast<std::size_t>(items) + 1));
  if (items == 0 || dice.one_in(3)) {
    array.insertItem(at, another(all, dice));
  } else if (at < items && dice.one_in(3)) {
    array.eraseItem(at);
  } else if (at < items) {
    array.setArrayItem(at, another(all, dice));
  }
}

void change_one(Handle object, const std::vector<Handle>& all, Dice& dice) {
  if (object.isStream()) {
    if (dice.one_in(2)) {
      std::string content;
      for (std::size_t n = 1 + dice.roll(4); n > 0; --n) content += dice.pick(kContents) + "\n";
      if (dice.one_in(30)) content.resize(3'000'000, ' ');
      object.replaceStreamData(content, Handle::newNull(), Handle::newNull());
    } else {
      change_dictionary(object.getDict(), all, dice);
    }
  } else if (object.isDictionary()) {
    // Half the time one level deeper: boxes, resources, appearances.
    for (const std::string& key : object.getKeys()) {
      Handle inner = object.getKey(key);
      if (dice.one_in(4) && (inner.isArray() || inner.isDictionary()) && !inner.isIndirect()) {
        return change_one(inner, all, dice);
      }
    }
    change_dictionary(object, all, dice);
  } else if (object.isArray()) {
    change_array(object, all, dice);
  }
}

std::string written(QPDF& pdf, Dice& dice) {
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setStaticID(true);
  writer.setStreamDataMode(dice.one_in(4) ? qpdf_s_compress : qpdf_s_preserve);
  writer.setObjectStreamMode(dice.one_in(4) ? qpdf_o_generate : qpdf_o_preserve);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

/// What a writer cannot be made to write: a trailer without its size, a table that leads astray.
void spoil_text(std::string& file, Dice& dice) {
  const std::string word =
      dice.pick(std::vector<std::string>{"/Size", "/Root", "startxref", "xref"});
  const std::size_t at = file.rfind(word);
  if (at != std::string::npos) file[at + 1] = 'X';
}

}  // namespace

std::string mutated(const std::string& input, Dice& dice) {
  if (dice.one_in(8)) return changed_bytes(input, dice);
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("input", input.data(), input.size());
    std::vector<Handle> all = pdf.getAllObjects();
    if (all.empty()) return changed_bytes(input, dice);
    for (std::size_t n = 1 + dice.roll(3); n > 0; --n) change_one(dice.pick(all), all, dice);
    std::string file = written(pdf, dice);
    if (dice.one_in(10)) spoil_text(file, dice);
    return file;
  } catch (const std::exception&) {  // beyond what the library reads
    return changed_bytes(input, dice);
  }
}

}  // namespace versolay::fuzz
