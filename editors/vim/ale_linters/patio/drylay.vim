" The language server, as ALE starts it.

function! ale_linters#patio#drylay#Root(buffer) abort
  for l:name in ["standard.patio", ".git"]
    let l:found = ale#path#FindNearestFile(a:buffer, l:name)
    let l:found = empty(l:found) ? ale#path#FindNearestDirectory(a:buffer, l:name) : l:found
    if !empty(l:found)
      return fnamemodify(substitute(l:found, "/$", "", ""), ":h")
    endif
  endfor
  return expand("#" . a:buffer . ":p:h")
endfunction

call ale#linter#Define("patio", {
\   "name": "drylay",
\   "lsp": "stdio",
\   "executable": "drylay",
\   "command": "%e serve",
\   "language": "patio",
\   "project_root": function("ale_linters#patio#drylay#Root"),
\})
