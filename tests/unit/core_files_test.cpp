#include <gmock/gmock.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>

#include "core/files.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using ::testing::ThrowsMessage;

class FilesTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (std::filesystem::temp_directory_path() / "versolay-files.XXXXXX").string();
    ASSERT_NE(mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::ptrdiff_t files() const {
    return std::distance(std::filesystem::directory_iterator(folder_), {});
  }
  std::filesystem::path folder_;
};

TEST_F(FilesTest, AnExistingFileIsKeptUnlessReplacingIsAllowed) {
  const auto file = folder_ / "a.json";
  write_file_atomically(file, "old", false);
  EXPECT_THAT([&] { write_file_atomically(file, "new", false); },
              ThrowsMessage<Error>(HasSubstr("output_exists")));
  EXPECT_EQ(read_file(file), "old");
  write_file_atomically(file, "new", true);
  EXPECT_EQ(read_file(file), "new");
  EXPECT_EQ(files(), 1);
}

TEST_F(FilesTest, AFailedWriteLeavesTheOldFileAndNoOther) {
  // A name that cannot be renamed onto: a folder that is not empty takes the place of the file.
  const auto file = folder_ / "taken";
  std::filesystem::create_directories(file / "inner");
  EXPECT_THROW(write_file_atomically(file, "new", true), Error);
  EXPECT_EQ(files(), 1);
}

TEST_F(FilesTest, AMissingFolderIsNamedBeforeTheWork) {
  EXPECT_THAT([&] { check_output(folder_ / "none" / "a.json", false); },
              ThrowsMessage<Error>(HasSubstr("folder_missing")));
}

TEST_F(FilesTest, NamesMayHaveSpacesAndBytesThatAreNotUtf8) {
  const auto file = folder_ / "a b \xff.json";
  write_file_atomically(file, "content", false);
  EXPECT_EQ(read_file(file), "content");
}

}  // namespace
}  // namespace versolay
