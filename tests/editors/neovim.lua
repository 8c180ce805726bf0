-- A real Neovim, set up with the file that a user copies, on a spec of ours:
--   nvim --headless -u editors/neovim/drylay.lua \
--     specs/bakehouse-yard.patio -c 'luafile tests/editors/neovim.lua'
-- Ends with status 0 if all of it came out, and says what did not.

local failed = 0
local patience = 30000

local function say(text)
  io.stdout:write(text .. "\n")
end

local function check(what, holds, found)
  if holds then
    say("ok      " .. what)
  else
    failed = failed + 1
    say("FAILED  " .. what .. ", but found: " .. vim.inspect(found))
  end
end

-- Waits until `find` finds something that is not nil or false.
local function await(find)
  local found
  vim.wait(patience, function()
    found = find()
    return found
  end, 20)
  return found
end

-- The number of the first line that begins so, from 0.
local function line_of(start)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    if line:find(start, 1, true) == 1 then
      return number - 1
    end
  end
  error("no line begins with " .. start)
end

-- What is drawn beside the text of a line, by any part of the editor; only
-- lines that are on the screen are drawn on.
local function drawn(line)
  vim.api.nvim_win_set_cursor(0, { line + 1, 0 })
  vim.cmd("normal! zz")
  vim.cmd("redraw!")
  local marks = vim.api.nvim_buf_get_extmarks(0, -1, { line, 0 }, { line, -1 }, { details = true })
  local texts = {}
  for _, mark in ipairs(marks) do
    for _, chunk in ipairs(mark[4].virt_text or {}) do
      table.insert(texts, chunk[1])
    end
  end
  return table.concat(texts, "|")
end

local function drawn_with(line, text)
  return await(function()
    return drawn(line):find(text, 1, true) ~= nil
  end)
end

local function finding(rule)
  for _, found in ipairs(vim.diagnostic.get(0)) do
    if found.code == rule then
      return found
    end
  end
end

-- The text of the floating window that a hover opens.
local function hovered(line, column)
  vim.api.nvim_win_set_cursor(0, { line + 1, column })
  vim.lsp.buf.hover()
  local text = await(function()
    for _, window in ipairs(vim.api.nvim_list_wins()) do
      if vim.api.nvim_win_get_config(window).relative ~= "" then
        local buffer = vim.api.nvim_win_get_buf(window)
        local lines = vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
        vim.api.nvim_win_close(window, true)
        return table.concat(lines, "\n")
      end
    end
  end)
  return text or ""
end

local function replace(line, from, to)
  local text = vim.api.nvim_buf_get_lines(0, line, line + 1, false)[1]
  local start, stop = text:find(from, 1, true)
  vim.api.nvim_buf_set_text(0, line, start - 1, line, stop, { to })
end

local function run()
  vim.diagnostic.config({ virtual_text = true })
  local client = await(function()
    return vim.lsp.get_clients({ bufnr = 0, name = "drylay" })[1]
  end)
  check("the server attaches", client ~= nil, vim.bo.filetype)
  check("the filetype is patio", vim.bo.filetype == "patio", vim.bo.filetype)

  -- What the tree-sitter grammar colours a place as, if it is installed.
  if #vim.api.nvim_get_runtime_file("parser/patio.so", false) > 0 then
    vim.treesitter.get_parser(0):parse(true)
    for start, colour in pairs({
      ["# The yard"] = "comment",
      ["job "] = "keyword",
      ["shape yard"] = "keyword",
    }) do
      local found = vim.treesitter.get_captures_at_pos(0, line_of(start), 0)
      local last = found[#found]
      check("`" .. start .. "` is coloured by its tree", last and last.capture == colour, found)
    end
    local fall = line_of("  fall ")
    for column, colour in pairs({ [2] = "property", [16] = "number", [20] = "keyword.modifier" }) do
      local found = vim.treesitter.get_captures_at_pos(0, fall, column)
      local last = found[#found]
      check("column " .. column .. " of a fall is " .. colour, last and last.capture == colour, found)
    end
    check("trees colour the buffer", vim.treesitter.highlighter.active[vim.api.nvim_get_current_buf()] ~= nil)
  end

  -- 24' by 16' less a tree pit of 4' by 4': 368 sq ft, and 80' + 16' round.
  local yard = line_of("shape yard")
  check("an area is drawn", drawn_with(yard, "368 sq ft"), drawn(yard))
  check("a perimeter is drawn", drawn_with(yard, "96' 0\""), drawn(yard))
  -- 25' by 16' 6" less 3' by 3', 6" deep, at 128 lb/cu ft: 25,824 lb.
  local base = line_of("  base ")
  check("a tonnage is drawn", drawn_with(base, "12.9 tons"), drawn(base))
  -- 2 % over 16'.
  local fall = line_of("  fall ")
  check("a drop is drawn", drawn_with(fall, "3 13/16\""), drawn(fall))

  local hover = hovered(base, 4)
  check("a hover shows the working", hover:find("volume in place", 1, true), hover)
  check("a hover shows the help", hover:find("The compacted base", 1, true), hover)

  check("a sound spec has no such finding", finding("fall-flat") == nil, finding("fall-flat"))
  replace(fall, "2 %", "1/2 %")
  local flat = await(function()
    return finding("fall-flat")
  end)
  check("a flat fall is found", flat ~= nil, vim.diagnostic.get(0))
  check("at its line", flat and flat.lnum == fall, flat)
  hover = hovered(fall, 16)
  local says = flat and vim.split(flat.message, "\n")[1] or "nothing"
  check("a hover over it begins with what it says", hover:find(says, 1, true), hover)
  check("and its message is drawn", flat and drawn_with(fall, "0.5 %"), drawn(fall))

  vim.api.nvim_win_set_cursor(0, { fall + 1, flat and flat.col or 0 })
  vim.lsp.buf.code_action({
    apply = true,
    filter = function(action)
      return action.title:find("Make the fall", 1, true) ~= nil
    end,
  })
  local mended = await(function()
    return finding("fall-flat") == nil
  end)
  check("its fix mends it", mended, vim.api.nvim_buf_get_lines(0, fall, fall + 1, false))

  local function line(number)
    return vim.api.nvim_buf_get_lines(0, number, number + 1, false)[1]
  end
  local function ask(method, parameters)
    parameters.textDocument = { uri = vim.uri_from_bufnr(0) }
    local answer = client:request_sync("textDocument/" .. method, parameters, patience, 0)
    return answer and answer.result
  end
  local let = line_of("let margin")

  replace(fall, "fall          ", "fall  ")
  vim.lsp.buf.format({ timeout_ms = patience })
  check("the spec is laid out", line(fall):find("^  fall          %S"), line(fall))

  local beyond = line(base):find("beyond margin", 1, true) + #"beyond "
  vim.api.nvim_win_set_cursor(0, { base + 1, beyond })
  vim.lsp.buf.definition()
  local gone = await(function()
    return vim.api.nvim_win_get_cursor(0)[1] == let + 1
  end)
  check("the definition of a let is gone to", gone, vim.api.nvim_win_get_cursor(0))

  vim.lsp.buf.rename("overhang")
  local renamed = await(function()
    return line(let):find("let overhang", 1, true) and line(base):find("beyond overhang", 1, true)
  end)
  check("a let gets a new name, and its uses too", renamed, line(base))

  local level = line_of("  level ")
  vim.api.nvim_buf_set_lines(0, level, level, false, { "  iso" })
  local offered = ask("completion", { position = { line = level, character = 5 } }) or {}
  local labels = vim.tbl_map(function(item)
    return item.label
  end, offered.items or offered)
  check("a key is completed", vim.tbl_contains(labels, "isolation-joint"), labels)
  vim.api.nvim_buf_set_lines(0, level, level + 1, false, {})

  local outline = vim.inspect(ask("documentSymbol", {}))
  check("the outline lists the sections", outline:find('"sand%-set'), outline:sub(1, 300))

  local token = await(function()
    local tokens = vim.lsp.semantic_tokens.get_at_pos(0, fall, 2)
    return tokens and tokens[1]
  end)
  check("the server colours the words", token and token.type == "property", token)

  -- Characters of two units of UTF-16, of two bytes, and a combining one.
  local note = line_of("  note ")
  replace(note, "\"", "\"𝄞 ½ e\u{301} ")
  replace(note, "morning\"", "morning\", colour")
  local stray = await(function()
    for _, found in ipairs(vim.diagnostic.get(0)) do
      if found.lnum == note then
        return found
      end
    end
  end)
  local line = vim.api.nvim_buf_get_lines(0, note, note + 1, false)[1]
  check(
    "columns are right behind such characters",
    stray and line:sub(stray.col + 1, stray.end_col):find("colour", 1, true),
    stray
  )
end

local ran, fault = xpcall(run, debug.traceback)
if not ran then
  failed = failed + 1
  say("FAILED  " .. fault)
end
vim.cmd(failed == 0 and "qall!" or "cquit!")
