#include "pdf/unpacking_budget.h"

#include <memory>
#include <qpdf/Pl_Flate.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFStreamFilter.hh>
#include <stdexcept>

#include "core/translation.h"
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

/// FlateDecode as qpdf's own, with the bytes counted: Pl_Flate of qpdf 11.3 has no limit.
class CountedFlate : public QPDFStreamFilter {
 public:
  bool setDecodeParms(QPDFObjectHandle parameters) override {
    const auto predictor = predictor_from(parameters);
    if (predictor) predictor_ = *predictor;
    return predictor.has_value();
  }
  Pipeline* getDecodePipeline(Pipeline* next) override {
    if (predictor_.needed()) {
      unpredict_ = std::make_unique<Unpredict>(predictor_, next);
      next = unpredict_.get();
    }
    counted_ = std::make_unique<CountedBytes>(next);
    inflate_ = std::make_unique<Pl_Flate>("inflate", counted_.get(), Pl_Flate::a_inflate);
    return inflate_.get();
  }

 private:
  Predictor predictor_;
  std::unique_ptr<Unpredict> unpredict_;
  std::unique_ptr<CountedBytes> counted_;
  std::unique_ptr<Pl_Flate> inflate_;
};

void count_flate_streams() {
  static const bool registered = [] {
    QPDF::registerStreamFilter("/FlateDecode", [] { return std::make_shared<CountedFlate>(); });
    return true;
  }();
  (void)registered;
}

}  // namespace

UnpackingBudget::UnpackingBudget(std::string file) : file_(std::move(file)), outer_(in_force) {
  count_flate_streams();
  in_force = this;
}

UnpackingBudget::~UnpackingBudget() { in_force = outer_; }

void UnpackingBudget::close() {
  in_force = outer_;
  require_kept();
}

void UnpackingBudget::require_kept() const {
  if (used_ <= kMostBytes) return;
  throw Error(file_, tr("its objects unpack to more than {} MB. Export it again, or print it to a "
                        "new PDF",
                        kMostBytes >> 20));
}

}  // namespace versolay
