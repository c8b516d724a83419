// Which TIFF pictures are read as scans, and the grey of their values.
#pragma once

#include "images/tiff_reader.h"
#include "scan/grey_rows.h"
#include "scan/input_file.h"

namespace versolay::scan {

/// Throws Error when the kind of colours, samples or compression is not read.
void check_layout(const Place& place, const images::TiffLayout& layout);
/// A header may promise more pixels than a file of `file_size` bytes can hold: throws Error before
/// memory is taken for them.
void check_length(const Place& place, const images::TiffLayout& layout, std::int64_t file_size);
/// Grey of every stored value of up to 8 bits, for palettes and grey scales. Throws PictureError
/// where a palette is missing.
GreyTable value_table(const images::TiffReader& file, const images::TiffLayout& layout);

}  // namespace versolay::scan
