" How ALE lays a buffer out.
function! drylay#Fix(buffer) abort
  return {"command": "drylay fmt -"}
endfunction
