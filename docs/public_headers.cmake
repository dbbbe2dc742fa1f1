# cmake -DFROM=source -DTO=folder -P: headers of mesh and solver as others include
# them. Those that speak of a module's inside are nobody else's.
file(REMOVE_RECURSE ${TO})
foreach(folder mesh solver)
  file(GLOB headers ${FROM}/${folder}/*.hpp)
  list(FILTER headers EXCLUDE REGEX "(gmsh_|_module)")
  foreach(header ${headers})
    get_filename_component(name ${header} NAME)
    file(READ ${header} text)
    string(REGEX REPLACE "#include \"(mesh|solver)/"
      "#include \"thinspot/\\1/" text "${text}")
    file(WRITE ${TO}/${folder}/${name} "${text}")
  endforeach()
endforeach()
