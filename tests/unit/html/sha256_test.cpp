// SHA-256 and base64 against the values of their standards and against OpenSSL's own program.
#include <catch2/catch.hpp>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <unistd.h>

#include "html/sha256.hpp"

using namespace coeval;

namespace {

std::string hex(const std::array<unsigned char, 32>& digest) {
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : digest) text += {digits[byte / 16], digits[byte % 16]};
  return text;
}

// What the program prints about a file that holds `bytes`.
std::string printed(const std::string& command, const std::string& bytes) {
  const auto path = std::filesystem::temp_directory_path() / ("coeval-sha256-" + std::to_string(::getpid()));
  std::ofstream{path, std::ios::binary} << bytes;
  FILE* pipe = ::popen(("< '" + path.string() + "' " + command).c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 256> buffer{};
  while (const std::size_t count = std::fread(buffer.data(), 1, buffer.size(), pipe)) text.append(buffer.data(), count);
  const int status = ::pclose(pipe);
  std::filesystem::remove(path);
  REQUIRE(status == 0);
  while (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

} // namespace

// The values that NIST publishes with FIPS 180-4 ("Examples with Intermediate Values", SHA256.pdf; the million letters:
// FIPS 180-2, appendix B.3), from memory.
TEST_CASE("sha256: the examples of FIPS 180-4") {
  CHECK(hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(hex(sha256(std::string(1'000'000, 'a'))) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(hex(sha256("")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("base64: the examples of RFC 4648, section 10") {
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foob") == "Zm9vYg==");
  CHECK(base64("fooba") == "Zm9vYmE=");
  CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("a policy's hash is what openssl prints, padding, zero bytes and all") {
  const std::string bytes{"a { b: c }\n\0 \xC3\xA4", 16};
  for (const std::string& text : {std::string{}, std::string{"x"}, bytes, std::string(100'000, '\n')}) {
    CHECK(policy_hash(text) == "'sha256-" + printed("openssl dgst -sha256 -binary | openssl base64 -A", text) + "'");
  }
}

TEST_CASE("base64 of much is what openssl prints") {
  std::string bytes;
  for (std::size_t i = 0; i < (std::size_t{3} << 20) + 2; ++i) bytes += static_cast<char>(i * i >> 3);
  CHECK(base64(bytes) == printed("openssl base64 -A", bytes));
}
