autocmd BufRead,BufNewFile *.patio set filetype=patio
