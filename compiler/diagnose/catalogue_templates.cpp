// What can be wrong with the folder that says how a site looks?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array templates{
    CatalogueRow{Code::broken_template, "broken-template", error, "a template that is not well-formed",
                 "browsers guess what broken markup means, and not all guess alike; a page built from it might swallow "
                 "what it should show",
                 R"(<p>Painted buttons<br>
<slot name="plate"></p>)",
                 "close every element, put every attribute's value in quotes, and write characters instead of names "
                 "that XML does not know"},
    CatalogueRow{Code::template_part_missing, "template-part-missing", error,
                 "a file or part that a template must hold",
                 "pages of this kind could not be built, and links to them would lead nowhere",
                 R"($ ls looks/pages/figure.html
ls: cannot access 'looks/pages/figure.html': No such file or directory)",
                 "write it, beginning with a copy of the template that comes with the program"},
    CatalogueRow{Code::template_part_unknown, "template-part-unknown", error, "a file or part that no page uses",
                 "somebody meant it to be seen; most often its name is misspelt",
                 R"(<template id="verdikt">  <!-- the part is called "verdict" -->
</template>)",
                 "correct the name, or delete what is left over"},
    CatalogueRow{Code::template_slot_missing, "template-slot-missing", error, "a slot that a template must hold",
                 "what the knowledge base says there would be on no page, and nobody would notice",
                 R"(<article>
  <slot name="about"></slot>      <!-- and no slot "outfit" -->
</article>)",
                 "add the slot; where it should not be seen, say so in a style sheet"},
    CatalogueRow{Code::template_slot_unknown, "template-slot-unknown", error, "a slot that nothing fills",
                 "it would stay empty on every page; most often its name is misspelt, and the slot that was meant is "
                 "missing",
                 R"(<h2>Outfit</h2>
<slot name="outfits"></slot>)",
                 "correct the name, or delete the slot"},
    CatalogueRow{
        Code::template_blocked, "template-blocked", error, "something that every browser would block",
        "the policy of every page allows the site's own style sheets, scripts and pictures and nothing else, "
        "so that no entry can smuggle in a script and no reader is watched",
        R"(<p style="color: red">
  <img src="https://example.org/emblem.png" alt="" onclick="count"/>
</p>)",
        "move styles to a style sheet, scripts to a script file and pictures into the template, and link them"},
};

} // namespace

std::span<const CatalogueRow> rows_of_templates() { return templates; }

} // namespace coeval
