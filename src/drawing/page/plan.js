// The plan on a page, in an editor or a browser: shown anew without a jump,
// moved and made larger, led from and to the text.
//
// Whoever holds the page calls `plan.show(svg, sections)`, `plan.say(words)` and
// `plan.point(section, entry)`, and listens to `plan.onpick(section, entry)`.

const plan = (() => {
  const NEAR = 5; // How far from a thin line a click still means it, in pixels.
  const desk = document.getElementById("plan");
  const words = document.getElementById("words");
  // Where the plan is not all there is, keys and wheel are its own only while it
  // has the focus: else the page moves.
  const isAlone = desk.parentElement === document.body;
  const isMeant = () => isAlone || document.activeElement === desk;
  const marks = new Set(["svg", "title", "g", "rect", "path", "text"]);
  let shown = "";
  let drawing;
  let pointed = [];
  // The view: how large, and where the sheet's corner lies.
  let view = { size: 0, x: 0, y: 0 };

  // Shows the plan, and under its sheet the pictures that go with it.
  function show(svg, sections = []) {
    const all = [svg, ...sections];
    if (all.join("") === shown) return;
    const read = all.map((one) => new DOMParser().parseFromString(one, "image/svg+xml").documentElement);
    if (!read.every((one) => one.nodeName === "svg" && isPlain(one))) return say("The plan cannot be shown.");
    shown = all.join("");
    say("");
    drawing?.remove();
    drawing = stacked(read.map((one) => document.adoptNode(one)));
    desk.append(drawing);
    under(content());
    if (view.size === 0) fit();
    lay();
    point(...pointed);
  }

  // Whether a drawing holds nothing but marks, each with plain attributes.
  function isPlain(element) {
    const attributes = [...element.attributes];
    return (
      marks.has(element.nodeName) &&
      attributes.every(({ name }) => !/^on|href/i.test(name)) &&
      [...element.children].every(isPlain)
    );
  }

  function sheet(of = drawing) {
    const [, , width, height] = of.getAttribute("viewBox").split(" ").map(Number);
    return { width, height };
  }

  // One picture of several.
  function stacked(pictures) {
    const whole = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const { width, height } = sheet(pictures[0]);
    pictures[0].setAttribute("width", width);
    pictures[0].setAttribute("height", height);
    whole.append(...pictures);
    whole.setAttribute("viewBox", `0 0 ${width} ${height}`);
    whole.dataset.others = pictures.length - 1;
    return whole;
  }

  // Each other picture under the one before, from where the plan begins and as
  // wide as it is: at the scale of its sheet nobody could read it.
  function under({ x, width: wide }) {
    const BETWEEN = 8;
    const [first, ...others] = drawing.children;
    let { width, height } = sheet(first);
    for (const picture of others) {
      const own = sheet(picture);
      const larger = Math.min(Math.max(wide / own.width, 1), 2);
      const places = { x, y: height + BETWEEN, width: own.width * larger, height: own.height * larger };
      for (const [name, value] of Object.entries(places)) picture.setAttribute(name, value);
      height += BETWEEN + places.height;
      width = Math.max(width, x + places.width);
    }
    drawing.setAttribute("viewBox", `0 0 ${width} ${height}`);
  }

  // Where the plan itself lies on its sheet, what stands beside it left out.
  function content() {
    const { width, height } = sheet(drawing.firstElementChild);
    const groups = [...drawing.firstElementChild.querySelectorAll("g[class]:not(.sheet)")];
    const boxes = groups.map((group) => group.getBBox()).filter((box) => box.width > 0 || box.height > 0);
    if (boxes.length === 0) return { x: 0, y: 0, width, height };
    const white = 6;
    const left = Math.max(0, Math.min(...boxes.map((box) => box.x)) - white);
    const top = Math.max(0, Math.min(...boxes.map((box) => box.y)) - white);
    const right = Math.min(width, Math.max(...boxes.map((box) => box.x + box.width)) + white);
    const bottom = Math.min(height, Math.max(...boxes.map((box) => box.y + box.height)) + white);
    return { x: left, y: top, width: right - left, height: bottom - top };
  }

  // At once as large as the window takes: the plan, then the sheet by moving.
  function fit() {
    const { x, y, width, height } = content();
    const size = Math.min(desk.clientWidth / width, desk.clientHeight / height) || 1;
    // What goes under the plan shows where there is room for it.
    const white = desk.clientHeight - height * size;
    view = {
      size,
      x: (desk.clientWidth - width * size) / 2 - x * size,
      y: (Number(drawing.dataset.others) > 0 ? 0 : white / 2) - y * size,
    };
  }

  function lay() {
    if (drawing === undefined) return;
    const { width, height } = sheet();
    drawing.setAttribute("width", width * view.size);
    drawing.setAttribute("height", height * view.size);
    drawing.style.transform = `translate(${view.x}px, ${view.y}px)`;
    plan.onview?.(view);
  }

  // Makes it larger or smaller about a place of the window.
  function zoom(factor, x, y) {
    const size = Math.min(Math.max(view.size * factor, 0.3), 60);
    const change = size / view.size;
    view = { size, x: x - (x - view.x) * change, y: y - (y - view.y) * change };
    lay();
  }

  function say(text) {
    words.textContent = text;
    words.hidden = text === "";
  }

  function groups() {
    return drawing === undefined ? [] : [...drawing.querySelectorAll("g[data-section]")];
  }

  // Marks what comes from an entry; without one, what comes from its section.
  function point(section, entry) {
    pointed = [section, entry];
    const of = groups().filter((group) => group.dataset.section === String(section));
    const own = of.filter((group) => group.dataset.entry === String(entry));
    const marked = new Set(own.length > 0 ? own : of);
    for (const group of groups()) group.classList.toggle("pointed", marked.has(group));
  }

  // The group that a click means: the nearest one within a few pixels.
  function picked(x, y) {
    const rings = [[0, 0]];
    for (let far = 1; far <= NEAR; far += 2) {
      for (let step = 0; step < 8; step += 1) {
        const turn = (step * Math.PI) / 4;
        rings.push([far * Math.cos(turn), far * Math.sin(turn)]);
      }
    }
    for (const [right, down] of rings) {
      const hit = document.elementsFromPoint(x + right, y + down);
      const group = hit.map((element) => element.closest("g[data-section]")).find((found) => found !== null);
      if (group) return group;
    }
    return undefined;
  }

  let drag;
  desk.addEventListener("pointerdown", (event) => {
    drag = { x: event.clientX, y: event.clientY, from: { ...view }, moved: false };
    desk.setPointerCapture(event.pointerId);
  });
  desk.addEventListener("pointermove", (event) => {
    if (drag === undefined) return;
    const [right, down] = [event.clientX - drag.x, event.clientY - drag.y];
    drag.moved ||= Math.hypot(right, down) > 3;
    if (!drag.moved) return;
    view = { ...drag.from, x: drag.from.x + right, y: drag.from.y + down };
    lay();
  });
  desk.addEventListener("pointerup", (event) => {
    const wasMoved = drag?.moved ?? true;
    drag = undefined;
    if (wasMoved) return;
    const group = picked(event.clientX, event.clientY);
    if (group) plan.onpick?.(Number(group.dataset.section), Number(group.dataset.entry));
  });
  desk.addEventListener("pointercancel", () => (drag = undefined));
  desk.addEventListener(
    "wheel",
    (event) => {
      if (!isMeant() && !event.ctrlKey) return;
      event.preventDefault();
      zoom(Math.exp(-event.deltaY / 500), event.clientX, event.clientY);
    },
    { passive: false },
  );
  desk.addEventListener("dblclick", () => {
    fit();
    lay();
  });
  document.addEventListener("keydown", (event) => {
    if (!isMeant() || event.ctrlKey || event.metaKey || event.altKey) return;
    const middle = [desk.clientWidth / 2, desk.clientHeight / 2];
    const steps = { ArrowLeft: [40, 0], ArrowRight: [-40, 0], ArrowUp: [0, 40], ArrowDown: [0, -40] };
    if (event.key === "+" || event.key === "=") zoom(1.25, ...middle);
    else if (event.key === "-") zoom(0.8, ...middle);
    else if (event.key === "0") {
      fit();
      lay();
    } else if (event.key in steps) {
      const [right, down] = steps[event.key];
      view = { ...view, x: view.x + right, y: view.y + down };
      lay();
    } else return;
    event.preventDefault();
  });

  return {
    show,
    say,
    point,
    get view() {
      return view;
    },
    // Takes up a view that was kept.
    see(kept) {
      view = kept;
      lay();
    },
  };
})();
