// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/style.hpp"

#include <fmt/format.h>

#include "papers/answer.hpp"
#include "study/fingerprint.hpp"

namespace poise::papers {
namespace {

constexpr std::string_view plain = R"css(
html { font: 9.5pt/1.35 "Liberation Sans", Arial, Helvetica, sans-serif; color: #000; hyphens: none; }
body { margin: 0; overflow-wrap: anywhere; }
h1 { font-size: 18pt; line-height: 1.2; margin: 0 0 3mm; }
h2 { font-size: 15pt; line-height: 1.2; margin: 0 0 3mm; padding-bottom: 1mm; border-bottom: 0.5mm solid #000;
     break-after: avoid; }
h3 { font-size: 11pt; margin: 5mm 0 1.5mm; break-after: avoid; }
p, ul, ol { margin: 0 0 2mm; orphans: 3; widows: 3; }
ul, ol { padding-left: 8mm; }
ul.twofold { columns: 2; column-gap: 8mm; }
ul.plain { list-style: none; padding-left: 0; }
li { margin-bottom: 0.8mm; break-inside: avoid; }
p.with-next { break-after: avoid; }
li.filled { break-inside: auto; }
li.filled table { margin: 1mm 0 2mm; break-before: avoid; }
section { break-before: page; }
section:first-of-type { break-before: auto; }
table { width: 100%; table-layout: fixed; border-collapse: collapse; margin: 0 0 3mm; font-size: 8.5pt; line-height: 1.25; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th { text-align: left; vertical-align: bottom; border-bottom: 0.35mm solid #000; padding: 0.8mm 1.2mm; }
td { vertical-align: top; border-bottom: 0.1mm solid #777; padding: 0.8mm 1.2mm; }
th:first-child, td:first-child { padding-left: 0; }
th.title { font-size: 9pt; border-bottom: none; padding-top: 1.5mm; }
tbody th { vertical-align: top; border-bottom: 0.1mm solid #777; }
table.large tbody th { padding-top: 1.6mm; padding-bottom: 1.6mm; }
th.measured, td.measured { text-align: right; }
table.small { font-size: 7.5pt; }
table.tiny { font-size: 6.5pt; }
table.tiny td { padding-top: 0.5mm; padding-bottom: 0.5mm; }
table.large { font-size: 10pt; }
table.large td { padding-top: 1.6mm; padding-bottom: 1.6mm; }
table.form td { height: 7mm; border: 0.1mm solid #777; padding-left: 1mm; }
table.form th { padding-left: 1mm; }
figure { margin: 0 0 3mm; break-inside: avoid; }
figure svg { display: block; margin: 0 auto; }
.quiet { font-size: 8pt; color: #333; }
.box { display: inline-block; width: 3mm; height: 3mm; border: 0.25mm solid #000; margin-right: 2mm; }
.blank { display: inline-block; width: 45mm; border-bottom: 0.2mm solid #000; }
.answer { border: 0.5mm solid #000; padding: 3mm 4mm; margin: 4mm 0; font-size: 12pt; break-inside: avoid; }
.answer strong { font-size: 15pt; }
.unproven { border-width: 1.5mm; }
.mind { border-left: 1mm solid #000; padding-left: 3mm; break-inside: avoid; }
nav td a { color: inherit; text-decoration: none; }
nav td.page a::before { content: target-counter(attr(href), page); }
.screen { display: none; }
@media screen {
  .screen { display: block; }
  body { max-width: 210mm; margin: 0 auto; padding: 5mm; }
  section { margin-bottom: 12mm; }
  figure svg { max-width: 100%; height: auto; }
  nav .page { display: none; }
}
)css";

/// A string of CSS with these words.
std::string css_string(std::string_view words) {
  std::string text = "\"";
  for (const char c : words) {
    if (c == '"' || c == '\\' || c == '<') {                            // "</style" would end the sheet
      text += fmt::format("\\{:06x} ", static_cast<unsigned char>(c));  // the blank ends the number
    } else {
      text += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return text + '"';
}

/// As many letters as the head of a page has room for.
std::string shortened(std::string_view words, std::size_t most) {
  std::size_t letters = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if ((static_cast<unsigned char>(words[i]) & 0xC0U) == 0x80U) continue;
    if (letters++ == most) return std::string(words.substr(0, i)) + "…";
  }
  return std::string(words);
}

std::string page_of(std::string_view size, std::string_view name) {
  return fmt::format("@page{} {{ size: {}; }}\n", name, size);
}

}  // namespace

std::string style_of(const Subject& subject) {
  const Drawing& drawing = subject.job.drawing;
  const bool a4 = subject.format == Format::a4, proven = is_proven(subject.verdict);
  std::string edition = drawing.revision.empty() ? "" : "revision " + drawing.revision;
  if (!drawing.date.empty()) edition += (edition.empty() ? "" : ", ") + drawing.date;
  const std::string foot = fmt::format("{} · {} · Poise {}", shortened(subject.file, 40),
                                       study::in_groups(subject.fingerprint), subject.version);
  std::string css(plain);
  css += page_of(a4 ? "A4 portrait" : "letter portrait", "");
  css += page_of(a4 ? "A4 landscape" : "letter landscape", " wide");
  css += ".wide { page: wide; }\n";
  // What stands in the middle is centred on the page: 42 % of it leave 29 % to either side.
  css += fmt::format(
      "@page {{ margin: 22mm 15mm 18mm 20mm;\n"
      "  @top-left {{ content: {}; font: 8pt \"Liberation Sans\", Arial, sans-serif; width: 27%; "
      "vertical-align: "
      "bottom; padding-bottom: 3mm; padding-right: 3mm; }}\n"
      "  @top-center {{ content: {}; font: bold {} \"Liberation Sans\", Arial, sans-serif; width: 42%; "
      "vertical-align: bottom; padding-bottom: 3mm; }}\n"
      "  @top-right {{ content: {}; font: 8pt \"Liberation Sans\", Arial, sans-serif; width: 27%; "
      "vertical-align: "
      "bottom; padding-bottom: 3mm; }}\n"
      "  @bottom-left {{ content: {}; font: 7.5pt \"Liberation Sans\", Arial, sans-serif; width: 80%; "
      "vertical-align: top; padding-top: 3mm; }}\n"
      "  @bottom-right {{ content: \"page \" counter(page) \" of \" counter(pages); font: 8pt \"Liberation "
      "Sans\", "
      "Arial, sans-serif; width: 20%; vertical-align: top; padding-top: 3mm; }}\n"
      "}}\n",
      css_string(shortened(subject.job.title, 60)), css_string(mark_of(subject.verdict)),
      proven ? "8pt" : "9.5pt", css_string(shortened(edition, 40)), css_string(foot));
  if (!proven) css += "@page { margin-top: 19mm; border-top: 1.5mm solid #000; padding-top: 1.5mm; }\n";
  return css;
}

}  // namespace poise::papers
