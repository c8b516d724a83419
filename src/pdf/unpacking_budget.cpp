#include "pdf/unpacking_budget.h"

#include <memory>
#include <qpdf/Pl_Flate.hh>
#include <qpdf/Pl_RunLength.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFStreamFilter.hh>
#include <stdexcept>
#include <type_traits>

#include "pdf/findings.h"
#include "pdf/lzw.h"
#include "pdf/predictor.h"
#include "versolay/result.h"

namespace versolay {

namespace {
thread_local UnpackingBudget* in_force = nullptr;
}

/// Passes bytes on as long as the budget in force lasts.
class CountedBytes : public Pipeline {
 public:
  explicit CountedBytes(Pipeline* onward) : Pipeline("counted bytes", onward) {}
  void write(const unsigned char* data, std::size_t size) override {
    if (in_force != nullptr) {
      in_force->used_ += size;
      if (in_force->used_ > UnpackingBudget::kMostBytes) {
        throw std::runtime_error("unpacks to too much");
      }
    }
    getNext()->write(data, size);
  }
  void finish() override { getNext()->finish(); }
};

namespace {

/// A filter of qpdf's, with the bytes that come out of it counted: qpdf 11.3 has no limit.
template <class Unpacker>
class Counted : public QPDFStreamFilter {
 public:
  bool setDecodeParms(QPDFObjectHandle parameters) override {
    const auto predictor = predictor_from(parameters);
    if (!predictor) return false;
    predictor_ = *predictor;
    if (parameters.isDictionary()) {
      QPDFObjectHandle early = parameters.getKey("/EarlyChange");
      early_change_ = !early.isInteger() || early.getIntValue() != 0;
    }
    return true;
  }
  Pipeline* getDecodePipeline(Pipeline* next) override {
    if (predictor_.needed()) {
      unpredict_ = std::make_unique<Unpredict>(predictor_, next);
      next = unpredict_.get();
    }
    counted_ = std::make_unique<CountedBytes>(next);
    unpacker_ = unpacker(counted_.get());
    return unpacker_.get();
  }

 private:
  std::unique_ptr<Unpacker> unpacker(Pipeline* onward) const {
    if constexpr (std::is_same_v<Unpacker, Lzw>) {
      return std::make_unique<Lzw>(early_change_, onward);
    } else if constexpr (std::is_same_v<Unpacker, Pl_Flate>) {
      return std::make_unique<Pl_Flate>("inflate", onward, Pl_Flate::a_inflate);
    } else {
      return std::make_unique<Pl_RunLength>("runs", onward, Pl_RunLength::a_decode);
    }
  }

  Predictor predictor_;
  bool early_change_ = true;
  std::unique_ptr<Unpredict> unpredict_;
  std::unique_ptr<CountedBytes> counted_;
  std::unique_ptr<Unpacker> unpacker_;
};

template <class Unpacker>
void count(const std::string& filter) {
  QPDF::registerStreamFilter(filter, [] { return std::make_shared<Counted<Unpacker>>(); });
}

/// What is left (hexadecimal, base 85, pictures) does not grow, or is not unpacked here.
void count_streams() {
  static const bool registered = [] {
    count<Pl_Flate>("/FlateDecode");
    count<Lzw>("/LZWDecode");
    count<Pl_RunLength>("/RunLengthDecode");
    return true;
  }();
  (void)registered;
}

}  // namespace

UnpackingBudget::UnpackingBudget(std::string file) : file_(std::move(file)), outer_(in_force) {
  count_streams();
  in_force = this;
}

UnpackingBudget::~UnpackingBudget() { in_force = outer_; }

void UnpackingBudget::close() {
  in_force = outer_;
  require_kept();
}

void UnpackingBudget::require_kept() const {
  if (used_ <= kMostBytes) return;
  throw Error(file_, findings::unpacks_too_large(static_cast<std::int64_t>(kMostBytes >> 20)));
}

}  // namespace versolay
