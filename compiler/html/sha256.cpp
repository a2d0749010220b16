#include "html/sha256.hpp"

#include <stdexcept>

#include <openssl/evp.h>

namespace coeval {
namespace {

const unsigned char* octets(const void* bytes) { return static_cast<const unsigned char*>(bytes); }

} // namespace

std::array<unsigned char, 32> sha256(std::string_view bytes) {
  std::array<unsigned char, 32> digest{};
  unsigned size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1 || size != digest.size())
    throw std::runtime_error{"OpenSSL has no SHA-256 here"};
  return digest;
}

std::string base64(std::string_view bytes) {
  // EVP_EncodeBlock counts in int: in pieces of whole groups of three, so that only the last is padded.
  constexpr std::size_t piece = std::size_t{3} << 20;
  std::string text;
  std::string encoded(piece / 3 * 4 + 1, '\0'); // it ends what it writes with a null
  for (std::size_t begin = 0; begin < bytes.size(); begin += piece) {
    const std::string_view part = bytes.substr(begin, piece);
    const int size = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(encoded.data()), octets(part.data()),
                                     static_cast<int>(part.size()));
    text.append(encoded, 0, static_cast<std::size_t>(size));
  }
  return text;
}

std::string policy_hash(std::string_view text) {
  const auto digest = sha256(text);
  return "'sha256-" + base64({reinterpret_cast<const char*>(digest.data()), digest.size()}) + "'";
}

} // namespace coeval
