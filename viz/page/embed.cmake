cmake_minimum_required(VERSION 3.25)

# Puts styles and scripts into a page, names both by their hash in its content
# security policy, and writes the whole as C++ text.
#   cmake -DFOLDER=… -DPAGE=page.html -DSTYLES="page …" -DSCRIPTS="reading …"
#     -DFUNCTION=page_text -DOUT=… [-DCHARTS=…] -P embed.cmake

function(read_text file result)
  file(READ ${file} text)
  if(text MATCHES "\\)page\"")
    message(FATAL_ERROR "${file} holds the end mark of the C++ text")
  endif()
  set(${result} "${text}" PARENT_SCOPE)
endfunction()

# SHA-256 in base 64, as the policy wants it.
function(policy_hash text result)
  string(SHA256 hex "${text}")
  string(APPEND hex "00")  # 32 bytes padded to 33, eleven times three
  set(letters
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/")
  set(base64 "")
  foreach(group RANGE 10)
    math(EXPR at "${group} * 6")
    string(SUBSTRING ${hex} ${at} 6 three)
    foreach(shift 18 12 6 0)
      math(EXPR k "(0x${three} >> ${shift}) & 63")
      string(SUBSTRING ${letters} ${k} 1 letter)
      string(APPEND base64 ${letter})
    endforeach()
  endforeach()
  string(SUBSTRING ${base64} 0 43 base64)  # the padding becomes "="
  set(${result} "${base64}=" PARENT_SCOPE)
endfunction()

read_text(${FOLDER}/${PAGE} page)
separate_arguments(styles UNIX_COMMAND "${STYLES}")
separate_arguments(scripts UNIX_COMMAND "${SCRIPTS}")
set(css "")
foreach(style ${styles})
  read_text(${FOLDER}/${style}.css text)
  string(APPEND css "${text}")
endforeach()
# One function around all scripts keeps their names to themselves.
set(js "\"use strict\";\n(function () {\n")
foreach(script ${scripts})
  read_text(${FOLDER}/${script}.js text)
  string(APPEND js "${text}\n")
endforeach()
string(APPEND js "})();\n")
policy_hash("${css}" css_hash)
policy_hash("${js}" js_hash)
string(REPLACE "@CSS_HASH@" "${css_hash}" page "${page}")
string(REPLACE "@JS_HASH@" "${js_hash}" page "${page}")
string(REPLACE "@CSS@" "${css}" page "${page}")
string(REPLACE "@JS@" "${js}" page "${page}")
if(DEFINED CHARTS)
  # The chart library as its package has it, in a script of its own.
  read_text(${CHARTS} charts)
  policy_hash("${charts}" charts_hash)
  string(REPLACE "@CHARTS_HASH@" "${charts_hash}" page "${page}")
  string(REPLACE "@CHARTS@" "${charts}" page "${page}")
endif()
file(WRITE ${OUT}
  "#include \"viz/page_text.hpp\"\n\n"
  "namespace thinspot::viz {\n\n"
  "std::string_view ${FUNCTION}() {\n  return R\"page(${page})page\";\n}\n\n"
  "}  // namespace thinspot::viz\n")
