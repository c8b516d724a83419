#include "rehearse/passes.h"

#include <cmath>

namespace versolay::rehearse {
namespace {

Registration drawn(const Registration& sd, Random& random) {
  RegistrationVector v = sd.vec();
  for (int i = 0; i < 6; ++i) v[i] *= random.normal();
  return Registration::from(v);
}

Eigen::Matrix2d stretch(double x_ppm, double y_ppm) {
  return Eigen::Vector2d(1.0 + x_ppm * 1e-6, 1.0 + y_ppm * 1e-6).asDiagonal().toDenseMatrix();
}

}  // namespace

Affine<VersoMm, VersoMm> Passes::landed_from_page() const {
  const Affine<SheetBackMm, VersoMm> front_seen_from_the_back =
      back_from_front(axis) * front * recto_from_verso(axis);
  return front_seen_from_the_back.inverse() * back;
}

Registration Passes::front_lay(std::size_t i) const {
  return registration_from(relabel_affine<VersoMm, VersoMm>(front.inverse() * further_fronts[i]));
}

Registration Passes::back_lay(std::size_t i) const {
  return registration_from(back.inverse() * further_backs[i]);
}

Registration Passes::registration() const { return registration_from(landed_from_page()); }

Passes draw_passes(const PassSettings& settings, TurnAxis axis, Random random) {
  const Registration lay = drawn(settings.lay_sd, random);
  const Registration feed =
      Registration::from(settings.mean.vec() + drawn(settings.feed_sd, random).vec());
  const Affine<VersoMm, VersoMm> placed = lay.landed_from_page();
  const Affine<SheetFrontMm, RectoMm> first_pass(
      placed.linear() * stretch(settings.printed_scale_x_ppm, settings.printed_scale_y_ppm),
      placed.offset());
  const Affine<SheetFrontMm, SheetFrontMm> grown(
      stretch(settings.growth_x_ppm, settings.growth_y_ppm), Eigen::Vector2d::Zero());

  const Affine<VersoMm, VersoMm> as_fed(
      (settings.turned_the_wrong_way ? -1.0 : 1.0) * Eigen::Matrix2d::Identity(),
      Eigen::Vector2d::Zero());
  const auto front_pass = [&](const Registration& off) {
    return grown * first_pass * relabel_affine<RectoMm, RectoMm>(off.landed_from_page());
  };
  const auto back_pass = [&](const Registration& off) {
    return back_from_front(axis) * first_pass * recto_from_verso(axis) * off.landed_from_page() *
           as_fed;
  };

  Passes passes;
  passes.axis = axis;
  if (settings.passes == 1 && settings.front_share == 0) {
    passes.front = front_pass({});
    passes.back = back_pass(feed);
    return passes;
  }
  const auto of_mean = [&](double share, const Registration& mean) {
    return Registration::from(mean.vec() +
                              std::sqrt(share) * drawn(settings.feed_sd, random).vec());
  };
  for (int pass = 1; pass <= settings.passes; ++pass) {
    const auto front = front_pass(of_mean(settings.front_share, {}));
    const auto back = back_pass(of_mean(1.0 - settings.front_share, settings.mean));
    if (pass == 1) {
      passes.front = front;
      passes.back = back;
    } else {
      passes.further_fronts.push_back(front);
      passes.further_backs.push_back(back);
    }
  }
  return passes;
}

}  // namespace versolay::rehearse
