// The files in files/ were made for this test with ImageMagick 6.9 and cwebp 1.2.4: 7 by 5 pixels each.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <random>

#include <catch2/catch.hpp>

#include "pictures/inspect.hpp"

using namespace coeval;
using Format = PictureFacts::Format;

namespace {

const std::vector<std::pair<std::string, Format>> real_files{
    {"rgb.png", Format::png},          {"mono.png", Format::png},    {"baseline.jpg", Format::jpeg},
    {"progressive.jpg", Format::jpeg}, {"lossy.webp", Format::webp}, {"lossless.webp", Format::webp},
    {"extended.webp", Format::webp}};

std::string content(const std::string& name) {
  std::ifstream file{std::string{COEVAL_TEST_DATA} + "/files/" + name, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

// From a piece of memory that ends where the bytes do, so that a sanitiser sees whoever reads on.
std::variant<PictureFacts, PictureFault> inspect(const std::string& bytes, const std::string& name) {
  const std::unique_ptr<char[]> exact{new char[bytes.size()]};
  std::ranges::copy(bytes, exact.get());
  return inspect_picture({exact.get(), bytes.size()}, name);
}

std::optional<PictureFault> fault_of(const std::string& bytes, const std::string& name) {
  const auto result = inspect(bytes, name);
  const auto* fault = std::get_if<PictureFault>(&result);
  return fault == nullptr ? std::nullopt : std::optional{*fault};
}

std::string words_of(const std::string& bytes, const std::string& name) {
  const auto fault = fault_of(bytes, name);
  return fault ? fault->words : "";
}

void put_big(std::string& bytes, std::size_t at, std::uint32_t number) {
  for (std::size_t i = 0; i < 4; ++i) bytes[at + i] = static_cast<char>(number >> (24 - 8 * i));
}

// Bit by bit, as the standard writes it down, not by a table.
std::uint32_t slow_crc(std::string_view bytes) {
  std::uint32_t sum = 0xFFFFFFFFU;
  for (const char byte : bytes) {
    sum ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) sum = (sum & 1U) != 0 ? 0xEDB88320U ^ (sum >> 1) : sum >> 1;
  }
  return ~sum;
}

std::string png_of_size(std::uint32_t width, std::uint32_t height) {
  std::string png = content("rgb.png");
  put_big(png, 16, width);
  put_big(png, 20, height);
  put_big(png, 29, slow_crc(std::string_view{png}.substr(12, 17)));
  return png;
}

// An Exif block of one entry, with the most significant byte last or first.
std::string exif(bool little, std::uint16_t tag, std::uint16_t value) {
  const auto number = [&](std::uint32_t of, std::size_t size) {
    std::string bytes;
    for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>(of >> 8 * (little ? i : size - 1 - i));
    return bytes;
  };
  return (little ? "II" : "MM") + number(42, 2) + number(8, 4) + number(1, 2) + number(tag, 2) + number(3, 2) +
         number(1, 4) + number(value, 2) + number(0, 2) + number(0, 4);
}

std::string jpeg_with(const std::string& tiff) {
  std::string jpeg = content("baseline.jpg");
  const std::string inside = std::string{"Exif\0\0", 6} + tiff;
  const std::size_t length = inside.size() + 2;
  return jpeg.insert(2, std::string{"\xFF\xE1"} + static_cast<char>(length >> 8) + static_cast<char>(length & 0xFF) +
                            inside);
}

} // namespace

TEST_CASE("pictures that browsers show are known by their bytes, with their size") {
  for (const auto& [name, format] : real_files) {
    INFO(name);
    const auto result = inspect(content(name), name);
    const auto* facts = std::get_if<PictureFacts>(&result);
    REQUIRE(facts != nullptr);
    CHECK(facts->format == format);
    CHECK(facts->width == 7);
    CHECK(facts->height == 5);
    CHECK_FALSE(facts->located);
  }
}

TEST_CASE("a picture that is cut off anywhere is refused") {
  for (const auto& [name, format] : real_files) {
    const std::string whole = content(name);
    REQUIRE(whole.size() > 30);
    for (std::size_t size = 0; size < whole.size(); ++size) {
      INFO(name << " cut to " << size << " bytes");
      const auto fault = fault_of(whole.substr(0, size), name);
      REQUIRE(fault);
      REQUIRE(fault->kind == PictureFault::Kind::broken);
    }
  }
}

TEST_CASE("damaged pictures are read within their bounds, and a PNG's damage is found") {
  std::mt19937 random{4};
  for (const auto& [name, format] : real_files) {
    const std::string whole = content(name);
    for (int round = 0; round < 3000; ++round) {
      std::string damaged = whole;
      damaged[random() % damaged.size()] ^= static_cast<char>(1 + random() % 255);
      const auto result = inspect(damaged, name);
      INFO(name << " in round " << round);
      if (format == Format::png) REQUIRE(std::holds_alternative<PictureFault>(result));
      if (const auto* facts = std::get_if<PictureFacts>(&result)) {
        REQUIRE(facts->width > 0);
        REQUIRE(facts->height > 0);
      }
    }
  }
}

TEST_CASE("the ending must be that of the format") {
  CHECK(words_of(content("rgb.png"), "a.jpg") == "this is a PNG picture, so its name must end in .png");
  CHECK(words_of("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'/>", "a.png") ==
        "this is an SVG picture, so its name must end in .svg");
  CHECK(words_of("GIF89a", "a.png") == "this is no SVG, PNG, JPEG or WebP picture");
  CHECK(words_of("", "a.png") == "the file is empty");
  CHECK_FALSE(fault_of(content("baseline.jpg"), "a.jpeg"));
}

TEST_CASE("sizes that no page can hold are refused") {
  CHECK_FALSE(fault_of(png_of_size(8000, 8000), "a.png"));
  for (const auto& [width, height] :
       {std::pair{20'001U, 1U}, {1U, 20'001U}, {19'000U, 19'000U}, {0x7FFFFFFFU, 0x7FFFFFFFU}}) {
    const auto fault = fault_of(png_of_size(width, height), "a.png");
    REQUIRE(fault);
    CHECK(fault->kind == PictureFault::Kind::unsafe);
  }
  CHECK(words_of(png_of_size(0, 5), "a.png") == "its width or height is 0");
}

TEST_CASE("a photograph that is stored turned is told upright") {
  for (const bool little : {true, false})
    for (std::uint16_t turned = 0; turned < 12; ++turned) {
      const auto result = inspect(jpeg_with(exif(little, 0x0112, turned)), "a.jpg");
      const auto* facts = std::get_if<PictureFacts>(&result);
      REQUIRE(facts != nullptr);
      // Exif 2.32, 4.6.4 A: values 5 to 8 exchange rows and columns
      const bool sideways = turned >= 5 && turned <= 8;
      CHECK(facts->width == (sideways ? 5 : 7));
      CHECK(facts->height == (sideways ? 7 : 5));
    }
}

TEST_CASE("a photograph that tells where it was taken is known") {
  for (const bool little : {true, false}) {
    const auto result = inspect(jpeg_with(exif(little, 0x8825, 26)), "a.jpg");
    REQUIRE(std::holds_alternative<PictureFacts>(result));
    CHECK(std::get<PictureFacts>(result).located);
  }
  for (std::size_t size = 0; size < 26; ++size) // cut off inside
    CHECK(std::holds_alternative<PictureFacts>(inspect(jpeg_with(exif(true, 0x8825, 26).substr(0, size)), "a.jpg")));
}

TEST_CASE("kinds of JPEG that browsers do not show are refused") {
  std::string arithmetic = content("baseline.jpg");
  const std::size_t header = arithmetic.find("\xFF\xC0");
  REQUIRE(header != std::string::npos);
  arithmetic[header + 1] = static_cast<char>(0xC9);
  CHECK(words_of(arithmetic, "a.jpg") == "its kind of JPEG is not one that browsers show: save it as baseline");
}
