// The page beside an editor: it is told of the job after each change of its
// text, and shows what is new without a jump.

(() => {
  const parts = ["head", "sections", "findings", "shopping", "figures", "care"];
  const state = document.getElementById("state");
  const picked = document.getElementById("line");
  const shown = {};
  let anchors = [];

  // The desk is as dark as the reader's.
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const dress = () => document.body.classList.toggle("dark", dark.matches);
  dark.addEventListener("change", dress);
  dress();

  function show(told) {
    document.title = told.title;
    state.textContent = "";
    anchors = told.anchors;
    const [left, top] = [scrollX, scrollY];
    const ticked = new Set([...document.querySelectorAll("input:checked")].map((tick) => tick.dataset.of));
    const isOpen = document.querySelector("#findings details")?.open ?? false;
    for (const name of parts) {
      if (shown[name] === told.parts[name]) continue;
      shown[name] = told.parts[name];
      document.getElementById(name).innerHTML = told.parts[name];
    }
    for (const tick of document.querySelectorAll("input[data-of]")) tick.checked = ticked.has(tick.dataset.of);
    const accepted = document.querySelector("#findings details");
    if (accepted) accepted.open = isOpen;
    if (told.plan === null) plan.say(told.why_no_plan);
    else plan.show(told.plan);
    scrollTo(left, top);
  }

  // Shows a line of the text, marks what comes from it on the plan and what is
  // found of it.
  function pick(line) {
    const anchor = anchors.find((own) => own.line === line);
    plan.point(anchor?.section ?? -1, anchor?.entry ?? -1);
    for (const group of document.querySelectorAll("#sections g[data-section]")) {
      const { section, entry } = group.dataset;
      group.classList.toggle("pointed", Number(section) === anchor?.section && Number(entry) === anchor?.entry);
    }
    picked.hidden = anchor === undefined;
    picked.textContent = anchor ? `Line ${line}: ${anchor.text}` : "";
    for (const finding of document.querySelectorAll("article")) {
      finding.classList.toggle("picked", finding.dataset.line === String(line));
    }
  }

  plan.onpick = (section, entry) => {
    const anchor = anchors.find((own) => own.section === section && own.entry === entry);
    if (anchor) pick(anchor.line);
  };
  document.getElementById("sections").addEventListener("click", ({ target }) => {
    const group = target.closest("g[data-section]");
    if (group) plan.onpick(Number(group.dataset.section), Number(group.dataset.entry));
  });
  const findings = document.getElementById("findings");
  const follow = ({ target }) => {
    const line = target.closest("article")?.dataset.line;
    if (line !== undefined) pick(Number(line));
  };
  findings.addEventListener("click", follow);
  findings.addEventListener("keydown", (event) => {
    if (event.key === "Enter") follow(event);
  });

  const events = new EventSource("/events");
  events.addEventListener("job", ({ data }) => show(JSON.parse(data)));
  events.addEventListener("trouble", ({ data }) => (state.textContent = JSON.parse(data)));
  events.addEventListener("error", () => {
    state.textContent = "drylay has ended: this is what it showed last.";
  });
})();
