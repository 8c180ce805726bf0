" Patio specifications in Vim 9 with ALE.
"
" Put this folder into ~/.vim/pack/drylay/start, as drylay, and `drylay` on
" your PATH. ale_linters beside it starts the language server.

if exists("b:did_ftplugin")
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=#\ %s
setlocal comments=:#
setlocal autoindent
setlocal expandtab
setlocal shiftwidth=2
setlocal softtabstop=2
setlocal iskeyword+=-
setlocal formatprg=drylay\ fmt\ -

let b:undo_ftplugin = "setlocal commentstring< comments< autoindent< expandtab< shiftwidth< softtabstop<"
      \ . " iskeyword< formatprg<"

" Without ALE there are colours, and gq lays the text out.
if !exists("g:loaded_ale_dont_use_this_in_other_plugins_please")
  finish
endif

call ale#fix#registry#Add("drylay", "drylay#Fix", ["patio"], "Lay out a patio specification.")
let b:ale_fixers = ["drylay"]
setlocal omnifunc=ale#completion#OmniFunc
let b:undo_ftplugin .= " omnifunc< | unlet! b:ale_fixers"

nnoremap <buffer> K <Cmd>ALEHover<CR>
nnoremap <buffer> gd <Cmd>ALEGoToDefinition<CR>
nnoremap <buffer> <LocalLeader>a <Cmd>ALECodeAction<CR>
nnoremap <buffer> <LocalLeader>f <Cmd>ALEFix<CR>
nnoremap <buffer> <LocalLeader>r <Cmd>ALERename<CR>
nnoremap <buffer> <LocalLeader>u <Cmd>ALEFindReferences<CR>
for s:key in ["K", "gd", "<LocalLeader>a", "<LocalLeader>f", "<LocalLeader>r", "<LocalLeader>u"]
  let b:undo_ftplugin .= " | silent! nunmap <buffer> " . s:key
endfor
