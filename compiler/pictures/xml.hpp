// pictures/xml.hpp: is a text well-formed XML, and which elements is it made of?
//
// Private to this room. XML 1.0 (fifth edition) and Namespaces in XML 1.0, as strict as a browser, which shows nothing
// of a picture that is not well-formed. Stricter in four things that no drawing needs: no document type, and so no
// entities but the five that are built in; no processing instructions; UTF-8 only; names of ASCII letters only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pictures/inspect.hpp"

namespace coeval {

struct XmlAttribute {
  std::string_view name;
  std::string value; // references resolved
};

class XmlReader {
public:
  enum class Event : std::uint8_t {
    open,  // of `element()` with `attributes()`; an empty element is closed at once
    text,  // `text()`, resolved, in pieces
    close, // of `element()`
    end,
    fault // `fault()`; nothing comes after it
  };

  explicit XmlReader(std::string_view text); // must outlive the reader

  [[nodiscard]] Event next();

  [[nodiscard]] std::string_view element() const { return element_; }
  [[nodiscard]] const std::vector<XmlAttribute>& attributes() const { return attributes_; }
  [[nodiscard]] const std::string& text() const { return content_; }
  [[nodiscard]] const PictureFault& fault() const { return fault_; }
  [[nodiscard]] std::size_t line() const { return line_; } // where the event begins, from 1

private:
  Event fail(std::string_view what);
  Event fail_unsafe(std::string_view what);
  Event read_text();
  Event read_cdata();
  Event read_open();
  Event read_close();
  bool read_declaration();
  bool read_attributes(std::string_view stop);
  bool declare_prefixes();
  bool skip_comment();
  std::string_view read_name();
  bool read_reference(std::string& into);
  bool skip_space();
  bool take(std::string_view expected);
  [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }
  void count_lines();

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t counted_ = 0; // bytes whose lines are counted
  std::string_view element_;
  std::vector<XmlAttribute> attributes_;
  std::string content_;
  PictureFault fault_;
  std::string_view trouble_;           // with what is being read; empty for none
  std::vector<std::string_view> open_; // elements
  struct Prefix {
    std::string_view name;
    std::size_t depth = 0; // of the element that declares it
  };
  std::vector<Prefix> prefixes_;
  bool started_ = false;   // the first event is over
  bool rooted_ = false;    // the root element has begun
  bool close_now_ = false; // an empty element
  bool failed_ = false;
};

} // namespace coeval
