// SPDX-License-Identifier: GPL-3.0-or-later
#include "face_finder.h"

#include <opencv2/core/utility.hpp>
#include <opencv2/objdetect.hpp>

#include "base/check.h"

namespace sightfall::reading {

struct FaceFinder::Impl {
  cv::CascadeClassifier cascade;
};

FaceFinder::FaceFinder() : impl_{std::make_unique<Impl>()} {
  cv::setNumThreads(1);  // several finders work side by side
  CHECK_EQ(impl_->cascade.load("/usr/share/opencv4/haarcascades/haarcascade_frontalface_alt2.xml"), true);
}
FaceFinder::~FaceFinder() = default;

std::vector<Piece> FaceFinder::find(const Grey& picture) {
  Grey copy = picture;
  const cv::Mat image{copy.rows, copy.columns, CV_8UC1, copy.at.data()};
  std::vector<cv::Rect> found;
  constexpr double kStep = 1.1;   // from one size to the next
  constexpr int kNeighbours = 3;  // that must agree: the library's own choice
  impl_->cascade.detectMultiScale(image, found, kStep, kNeighbours);
  std::vector<Piece> pieces;
  for (const cv::Rect& r : found)
    pieces.push_back({static_cast<double>(r.x), static_cast<double>(r.y), static_cast<double>(r.width),
                      static_cast<double>(r.height)});
  return pieces;
}

}  // namespace sightfall::reading
