-- Patio specifications in Neovim 0.11 or newer.
--
-- Put this file into the folder `plugin` of your configuration, as
-- ~/.config/nvim/plugin/drylay.lua, and `drylay` on your PATH. Nothing else is
-- needed: no plugin manager, and no other settings.

vim.filetype.add({ extension = { patio = "patio" } })

vim.lsp.config("drylay", {
  cmd = { "drylay", "serve" },
  filetypes = { "patio" },
  root_markers = { "standard.patio", ".git" },
  init_options = {
    -- Figures at the ends of lines; set one to false to be spared its kind.
    hints = {
      areas = true,
      layers = true,
      mixes = true,
      falls = true,
      lets = true,
      orders = true,
    },
    -- `K` over a finding begins with what it says.
    findings = { hover = true },
  },
})
vim.lsp.enable("drylay")

local group = vim.api.nvim_create_augroup("drylay", {})

vim.api.nvim_create_autocmd("FileType", {
  group = group,
  pattern = "patio",
  callback = function(event)
    local buffer = vim.bo[event.buf]
    buffer.commentstring = "# %s"
    buffer.expandtab = true
    buffer.shiftwidth = 2
    -- Colours before the server has answered; editors/tree-sitter/install
    -- brings the parser.
    pcall(vim.treesitter.start, event.buf, "patio")
  end,
})

vim.api.nvim_create_autocmd("LspAttach", {
  group = group,
  callback = function(event)
    local client = vim.lsp.get_client_by_id(event.data.client_id)
    if client and client.name == "drylay" then
      vim.lsp.inlay_hint.enable(true, { bufnr = event.buf })
    end
  end,
})
