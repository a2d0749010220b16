# Writes OUTPUT, a C++ file that holds the three completion scripts of this folder as text.
#   cmake -DOUTPUT=FILE -P embed.cmake
set(text "#include \"commands/completion_scripts.hpp\"\n\nnamespace coeval {\n")
foreach(shell bash zsh fish)
  file(READ ${CMAKE_CURRENT_LIST_DIR}/coeval.${shell} script)
  string(APPEND text "const std::string_view ${shell}_completions = R\"script(${script})script\";\n")
endforeach()
file(WRITE ${OUTPUT} "${text}} // namespace coeval\n")
