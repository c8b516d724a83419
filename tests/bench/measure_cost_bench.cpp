// What `measure` costs on scans, beside decoding them, and beside general-purpose detectors:
//   bench_measure --benchmark_filter=. scan.png ...
// Time is that of one core; peak_MiB is the most memory that the process held at once.
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>
#include <string>

#include "measure/side_reading.h"
#include "scan/scan.h"

namespace versolay {
namespace {

/// Linux: restarts the count of the most memory.
void reset_peak() { std::ofstream("/proc/self/clear_refs") << 5; }

double peak_mib() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmHWM:")) return std::stod(line.substr(6)) / 1024;
  }
  return 0.0;
}

template <class Work>
void timed(benchmark::State& state, const Work& work) {
  reset_peak();
  for (auto _ : state) work();
  state.counters["peak_MiB"] = peak_mib();
}

cv::Mat view(const GreyImage& image) {
  return {image.height, image.width, CV_8UC1, const_cast<std::uint8_t*>(image.pixels.data())};
}

void aruco(benchmark::State& state, const GreyImage& image, double scale) {
  const auto dictionary = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
  cv::setNumThreads(1);
  std::vector<int> ids;
  timed(state, [&] {
    cv::Mat small;
    cv::resize(view(image), small, {}, scale, scale, cv::INTER_AREA);
    std::vector<std::vector<cv::Point2f>> corners;
    cv::aruco::detectMarkers(small, dictionary, corners, ids);
  });
  state.counters["tags"] = static_cast<double>(ids.size());
}

void apriltag(benchmark::State& state, const GreyImage& image, float decimate) {
  apriltag_family_t* family = tag36h11_create();
  apriltag_detector_t* detector = apriltag_detector_create();
  apriltag_detector_add_family_bits(detector, family, 1);
  detector->quad_decimate = decimate;
  int tags = 0;
  timed(state, [&] {
    image_u8_t pixels{image.width, image.height, image.width,
                      const_cast<std::uint8_t*>(image.pixels.data())};
    zarray_t* found = apriltag_detector_detect(detector, &pixels);
    tags = zarray_size(found);
    apriltag_detections_destroy(found);
  });
  state.counters["tags"] = tags;
  apriltag_detector_destroy(detector);
  tag36h11_destroy(family);
}

void add(const std::string& name, const std::function<void(benchmark::State&)>& run) {
  benchmark::RegisterBenchmark(name.c_str(), run)->Unit(benchmark::kMillisecond);
}

void register_file(const std::filesystem::path& path) {
  const std::string file = path.filename().string() + "/";
  add(file + "decode", [path](benchmark::State& state) {
    timed(state, [&] { benchmark::DoNotOptimize(load_page(path, 1).grey.pixels.data()); });
  });
  add(file + "decode_and_measure", [path](benchmark::State& state) {
    timed(state, [&] {
      const Scan scan = load_page(path, 1);
      if (!read_side(scan)) state.SkipWithError("not read");
    });
  });
  add(file + "aruco_full_size",
      [path](benchmark::State& state) { aruco(state, load_page(path, 1).grey, 1.0); });
  add(file + "aruco_quarter_size",
      [path](benchmark::State& state) { aruco(state, load_page(path, 1).grey, 0.25); });
  add(file + "apriltag_decimate_2",
      [path](benchmark::State& state) { apriltag(state, load_page(path, 1).grey, 2.0F); });
}

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  for (int i = 1; i < argc; ++i) versolay::register_file(argv[i]);
  benchmark::RunSpecifiedBenchmarks();
}
