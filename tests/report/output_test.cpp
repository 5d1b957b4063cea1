#include "report/output.h"

#include <dirent.h>
#include <gmock/gmock.h>

#include "program.h"

namespace soilhold::report {
namespace {

using program::Folder;
using program::slurp;

int entries(const std::string& path) {
    DIR* folder = opendir(path.c_str());
    int count = 0;
    while (readdir(folder)) ++count;
    closedir(folder);
    return count - 2;
}

TEST(Output, ReplacesTheOldFileWithTheWholeNewOne) {
    Folder folder;
    write_whole(folder.path + "/page", "old");
    write_whole(folder.path + "/page", "new and longer");
    EXPECT_EQ(slurp(folder.path + "/page"), "new and longer");
    EXPECT_EQ(entries(folder.path), 1);
}

TEST(Output, NamesThePathAndTheReason) {
    try {
        write_whole("/no-such-folder/page", "x");
        FAIL() << "was written";
    } catch (const OutputError& error) {
        EXPECT_THAT(error.what(), testing::HasSubstr("/no-such-folder/page"));
        EXPECT_THAT(error.what(), testing::HasSubstr("No such file"));
    }
}

TEST(Output, OfSeveralFilesIsAllOrNothing) {
    Folder folder;
    EXPECT_THROW(write_all({{folder.path + "/one", "1"}, {folder.path + "/missing/two", "2"}}), OutputError);
    EXPECT_EQ(entries(folder.path), 0);
}

}  // namespace
}  // namespace soilhold::report
