#include "imposition/deck.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <mutex>
#include <optional>

#include "artwork/image_checks.h"
#include "core/findings.h"
#include "core/natural_order.h"
#include "core/parallel.h"
#include "imposition/card_list.h"
#include "imposition/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

namespace fs = std::filesystem;

/// A card whose files are known but not read.
struct NamedCard {
  std::string name;
  ArtFile front;
  ArtFile back;
  std::string note;
};

bool is_art(const fs::path& path) { return has_image_name(path) || has_pdf_name(path); }

std::vector<fs::path> sorted_entries(const fs::path& folder, bool folders) {
  std::vector<fs::path> entries;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    if (entry.path().filename().string().starts_with(".")) continue;
    const bool wanted =
        folders ? entry.is_directory() : entry.is_regular_file() && is_art(entry.path());
    if (wanted) entries.push_back(entry.path());
  }
  if (error) throw Error(folder.string(), findings::folder_not_listed(error.message()));
  std::sort(entries.begin(), entries.end(), [](const fs::path& a, const fs::path& b) {
    return natural_less(a.filename().string(), b.filename().string());
  });
  return entries;
}

bool has_tiff_name(const fs::path& path) {
  const std::string name = path.extension().string();
  return name.starts_with(".t") || name.starts_with(".T");  // of those that is_art() knows
}

/// A picture, or all pages of a PDF or TIFF; of "cards.pdf#3" the one.
std::vector<ArtFile> pages_of(const fs::path& path) {
  const ArtFile file = named_art(path);
  if (file.page > 0) return {file};
  std::vector<ArtFile> pages;
  if (has_pdf_name(path)) {
    for (const PageArt& page : read_page_art(path)) pages.push_back({path, page.page});
    return pages;
  }
  const int count = has_tiff_name(path) ? pages_in(path) : 1;
  if (count == 1) return {file};
  for (int page = 1; page <= count; ++page) pages.push_back({path, page});
  return pages;
}

std::vector<ArtFile> art_in(const fs::path& folder) {
  std::vector<ArtFile> art;
  for (const fs::path& file : sorted_entries(folder, false)) {
    const auto pages = pages_of(file);
    art.insert(art.end(), pages.begin(), pages.end());
  }
  if (art.empty()) {
    throw Error(folder.string(), findings::folder_without_art());
  }
  return art;
}

std::vector<ArtFile> art_of(const fs::path& path) {
  return fs::is_directory(path) ? art_in(path) : pages_of(path);
}

std::string name_of(const ArtFile& file) {
  const std::string name = file.path.stem().string();
  return file.page > 0 ? name + " page " + std::to_string(file.page) : name;
}

/// Folders in the folder of fronts: each holds cards that share the back of the same name.
std::vector<NamedCard> grouped_cards(const std::vector<fs::path>& groups, const fs::path& back) {
  std::map<std::string, ArtFile> backs;
  if (fs::is_directory(back)) {
    for (const ArtFile& file : art_in(back)) backs[file.path.stem().string()] = file;
  }
  std::vector<NamedCard> cards;
  for (const fs::path& group : groups) {
    const std::string name = group.filename().string();
    const auto found = backs.find(name);
    if (fs::is_directory(back) && found == backs.end()) {
      throw Error(back.string(), findings::no_back_of_group(name, group.string()));
    }
    for (const ArtFile& front : art_in(group)) {
      cards.push_back(
          {name_of(front), front, found == backs.end() ? ArtFile{} : found->second, {}});
    }
  }
  return cards;
}

std::vector<NamedCard> listed_cards(const fs::path& list) {
  std::vector<NamedCard> cards;
  for (const ListedCard& line : read_card_list(list)) {
    const NamedCard card{line.name, line.front, line.back.value_or(ArtFile{}), line.note};
    cards.insert(cards.end(), static_cast<std::size_t>(line.quantity), card);
  }
  if (cards.empty()) throw Error(list.string(), findings::no_cards());
  return cards;
}

void deal_backs(std::vector<NamedCard>& cards, const fs::path& back) {
  const std::vector<ArtFile> backs = back.empty() ? std::vector<ArtFile>{} : art_of(back);
  if (backs.size() > 1 && backs.size() != cards.size()) {
    throw Error(back.string(),
                findings::backs_do_not_match(static_cast<std::int64_t>(cards.size()),
                                             static_cast<std::int64_t>(backs.size())));
  }
  for (std::size_t i = 0; i < cards.size(); ++i) {
    if (!cards[i].back.path.empty()) continue;
    if (backs.empty()) {
      throw Error(cards[i].front.path.string(), findings::card_without_back());
    }
    cards[i].back = backs.size() == 1 ? backs[0] : backs[i];
  }
}

std::vector<NamedCard> named_cards(const fs::path& fronts, const fs::path& back) {
  if (fs::is_directory(fronts)) {
    const auto groups = sorted_entries(fronts, true);
    if (!groups.empty() && sorted_entries(fronts, false).empty()) {
      std::vector<NamedCard> cards = grouped_cards(groups, back);
      if (!fs::is_directory(back)) deal_backs(cards, back);
      return cards;
    }
  }
  std::vector<NamedCard> cards;
  if (fs::is_directory(fronts) || is_art(named_art(fronts).path)) {
    for (const ArtFile& front : art_of(fronts)) cards.push_back({name_of(front), front, {}, {}});
  } else {
    cards = listed_cards(fronts);
  }
  deal_backs(cards, back);
  return cards;
}

/// Same pixels in the same colours, so that one object of the PDF serves both.
bool same_picture(const CodedImage& a, const CodedImage& b) {
  return a.data_sum == b.data_sum && a.data_size == b.data_size && a.coding == b.coding &&
         a.width_px == b.width_px && a.height_px == b.height_px && a.bits == b.bits &&
         a.components == b.components && a.palette == b.palette && a.icc_profile == b.icc_profile &&
         coded_data(a) == coded_data(b);
}

bool same_art(const Artwork& a, const Artwork& b) {
  const auto* one = std::get_if<CodedImage>(&a);
  const auto* other = std::get_if<CodedImage>(&b);
  if (one != nullptr && other != nullptr) return same_picture(*one, *other);
  return one == nullptr && other == nullptr && std::get<PageArt>(a) == std::get<PageArt>(b);
}

/// The pages of PDFs, each file opened once however many of its pages are cards.
class PagesOfPdfs {
 public:
  const std::vector<PageArt>& of(const fs::path& path) {
    const std::lock_guard lock(mutex_);
    const auto found = pages_.find(path);
    if (found != pages_.end()) return found->second;
    return pages_.emplace(path, read_page_art(path)).first->second;
  }

 private:
  std::mutex mutex_;
  std::map<fs::path, std::vector<PageArt>> pages_;
};

Artwork read_art(const ArtFile& file, PagesOfPdfs& pdfs) {
  if (!has_pdf_name(file.path)) {
    CodedImage image = read_coded_image(file.path, file.page);
    image.data.clear();  // read again when it is written
    image.data.shrink_to_fit();
    return image;
  }
  const std::vector<PageArt>& pages = pdfs.of(file.path);
  check_page(file.page, static_cast<int>(pages.size()), file.path);
  return pages[static_cast<std::size_t>(std::max(file.page, 1)) - 1];
}

using ArtKey = std::pair<std::string, int>;

ArtKey key_of(const ArtFile& file) { return {file.path.lexically_normal().string(), file.page}; }

/// All that cannot be read, in one go.
void throw_faults(std::vector<std::optional<Error>> faults) {
  std::erase(faults, std::nullopt);
  if (faults.empty()) return;
  if (faults.size() == 1) throw *faults.front();
  std::vector<Error> errors;
  for (auto& fault : faults) errors.push_back(std::move(*fault));
  throw Error(std::move(errors));
}

/// Reads every file once, on all cores.
std::vector<Artwork> read_all(const std::vector<ArtFile>& files, const Progress& progress) {
  std::vector<Artwork> art(files.size());
  std::vector<std::optional<Error>> faults(files.size());
  PagesOfPdfs pdfs;
  std::mutex one_at_a_time;
  int done = 0;
  for_each_item(static_cast<int>(files.size()), 1, 0, [&]() -> std::function<void(int)> {
    return [&](int i) {
      const auto index = static_cast<std::size_t>(i);
      try {
        art[index] = read_art(files[index], pdfs);
      } catch (const Error& e) {
        faults[index] = e;
      }
      const std::lock_guard lock(one_at_a_time);
      tell(progress, ++done, static_cast<int>(files.size()), Term{"reading artwork"});
    };
  });
  throw_faults(std::move(faults));
  return art;
}

}  // namespace

std::string file_of(const Artwork& art) {
  const auto named = [](const auto& a) {
    return a.page > 0 ? a.file + "#" + std::to_string(a.page) : a.file;
  };
  return std::visit(named, art);
}

std::vector<fs::path> files_of(const Deck& deck) {
  std::vector<fs::path> files;
  for (const Artwork& art : deck.images) {
    files.emplace_back(std::visit([](const auto& a) { return a.file; }, art));
  }
  return files;
}

Deck read_deck(const fs::path& fronts, const fs::path& back, const Progress& progress) {
  for (const fs::path& path : {fronts, back}) {
    if (path.empty() || fs::exists(named_art(path).path)) continue;
    throw Error(path.string(), findings::does_not_exist());
  }
  const std::vector<NamedCard> named = named_cards(fronts, back);

  std::vector<ArtFile> files;
  std::map<ArtKey, std::size_t> file_index;
  for (const NamedCard& card : named) {
    for (const ArtFile& file : {card.front, card.back}) {
      if (file_index.try_emplace(key_of(file), files.size()).second) files.push_back(file);
    }
  }
  std::vector<Artwork> art = read_all(files, progress);

  Deck deck;
  std::vector<std::size_t> image_of_file;
  for (Artwork& one : art) {
    const auto known = std::find_if(deck.images.begin(), deck.images.end(),
                                    [&](const Artwork& other) { return same_art(one, other); });
    image_of_file.push_back(static_cast<std::size_t>(known - deck.images.begin()));
    if (known == deck.images.end()) deck.images.push_back(std::move(one));
  }
  for (const NamedCard& card : named) {
    deck.cards.push_back({image_of_file[file_index.at(key_of(card.front))],
                          image_of_file[file_index.at(key_of(card.back))], card.name, card.note});
  }
  return deck;
}

}  // namespace versolay
