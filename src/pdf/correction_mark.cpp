#include "pdf/correction_mark.h"

#include <locale>
#include <sstream>
#include <string>

#include "core/files.h"
#include "core/numbers.h"

namespace versolay {
namespace {

constexpr const char* kInfoKey = "/VersolayBacksMoved";
constexpr const char* kOwner = "/Versolay";

/// "0.42 -0.31 0.9 -180 140 0.12": in the order and the units of kRegistrationKeys.
std::string text_of(const Registration& r) {
  std::string text;
  const RegistrationVector v = r.vec();
  for (Eigen::Index i = 0; i < v.size(); ++i) text += (i > 0 ? " " : "") + format_number(v[i], 6);
  return text;
}

Registration registration_of(const std::string& text) {
  std::istringstream in(text);
  in.imbue(std::locale::classic());
  RegistrationVector v = RegistrationVector::Zero();
  for (Eigen::Index i = 0; i < v.size(); ++i) {
    if (!(in >> v[i])) return {};
  }
  return Registration::from(v);
}

QPDFObjectHandle entry(QPDFObjectHandle dictionary, const char* key) {
  return dictionary.isDictionary() ? dictionary.getKey(key) : QPDFObjectHandle::newNull();
}

}  // namespace

void mark_correction(QPDF& pdf, const Registration& correction) {
  const auto text = QPDFObjectHandle::newUnicodeString(text_of(correction));
  auto info = pdf.getTrailer().getKey("/Info");
  if (info.isDictionary()) info.replaceKey(kInfoKey, text);
  auto own = QPDFObjectHandle::newDictionary();
  own.replaceKey("/LastModified", QPDFObjectHandle::newString(utc_now()));
  own.replaceKey("/Private", text);
  auto root = pdf.getRoot();
  if (!root.getKey("/PieceInfo").isDictionary()) {
    root.replaceKey("/PieceInfo", QPDFObjectHandle::newDictionary());
  }
  root.getKey("/PieceInfo").replaceKey(kOwner, own);
}

std::optional<Registration> marked_correction(QPDF& pdf) {
  for (const QPDFObjectHandle& mark :
       {entry(pdf.getTrailer().getKey("/Info"), kInfoKey),
        entry(entry(entry(pdf.getRoot(), "/PieceInfo"), kOwner), "/Private")}) {
    if (QPDFObjectHandle text = mark; text.isString()) return registration_of(text.getUTF8Value());
  }
  return std::nullopt;
}

}  // namespace versolay
