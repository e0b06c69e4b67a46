// Hands a text, and the pictures beside it, to whatever the person shares with. Where there is no such thing the text goes to the clipboard, or, when
// it is to be written under the pictures, all of it into a file.
(() => {
  "use strict";

  const LOOKS = ["fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap", "stroke-linejoin", "paint-order",
    "font-family", "font-weight", "display"];

  // A drawing that stands by itself: what the style sheet says of it is written into it.
  function alone(svg) {
    const copy = svg.cloneNode(true), from = svg.querySelectorAll("*"), to = copy.querySelectorAll("*");
    from.forEach((shape, n) => {
      const look = getComputedStyle(shape);
      for (const name of LOOKS) to[n].setAttribute(name, look.getPropertyValue(name));
    });
    copy.setAttribute("width", svg.viewBox.baseVal.width);
    copy.setAttribute("height", svg.viewBox.baseVal.height);
    return "data:image/svg+xml," + encodeURIComponent(new XMLSerializer().serializeToString(copy));
  }

  // The text in lines that are no wider than that.
  function lines(text, pen, wide) {
    const all = [];
    for (const paragraph of text ? text.split("\n") : []) {
      let line = "";
      for (const word of paragraph.split(" ")) {
        const longer = line ? line + " " + word : word;
        if (line && pen.measureText(longer).width > wide) all.push(line), line = word;
        else line = longer;
      }
      all.push(line);
    }
    return all;
  }

  // All drawings below one another on paper, and the text below them, as one picture.
  async function picture(drawings, text, look, name) {
    const finer = 3, edge = 12, high = 17, boxes = drawings.map(d => d.viewBox.baseVal), wide = Math.max(...boxes.map(b => b.width));
    const canvas = document.createElement("canvas"), pen = canvas.getContext("2d"), font = finer * 13 + "px " + look.fontFamily;
    pen.font = font;
    const written = lines(text, pen, finer * wide);
    canvas.width = finer * (wide + 2 * edge);
    canvas.height = finer * (boxes.reduce((sum, b) => sum + b.height + edge, edge) + (written.length && high * written.length + edge));
    pen.fillStyle = look.backgroundColor;
    pen.fillRect(0, 0, canvas.width, canvas.height);
    let down = edge;
    for (const drawing of drawings) {
      const image = new Image(), box = drawing.viewBox.baseVal;
      image.src = alone(drawing);
      await image.decode();
      pen.drawImage(image, finer * edge, finer * down, finer * box.width, finer * box.height);
      down += box.height + edge;
    }
    pen.font = font; // a new size forgets it
    pen.fillStyle = look.color;
    for (const line of written) pen.fillText(line, finer * edge, finer * (down += high));
    const blob = await new Promise(done => canvas.toBlob(done, "image/png"));
    return new File([blob], name + ".png", { type: "image/png" });
  }

  function save(file) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000); // some fetch it late
  }

  // Answers "shared", "left" when the person thought better of it, "copied", "saved", or "failed".
  globalThis.gapwrightShare = async (title, text, from, name, write) => {
    const sheet = document.querySelector(from), data = { title, text };
    let file = null;
    try {
      const drawings = sheet ? [...sheet.querySelectorAll("svg")] : [];
      if (drawings.length > 0 && (write || navigator.canShare)) file = await picture(drawings, write ? text : "", getComputedStyle(sheet), name);
    } catch { } // without the picture, then
    if (navigator.share) {
      if (file && navigator.canShare && navigator.canShare({ ...data, files: [file] })) data.files = [file];
      try {
        await navigator.share(data);
        return "shared";
      } catch (x) {
        if (x.name === "AbortError") return "left";
      }
    }
    if (write && file) {
      save(file);
      return "saved";
    }
    try {
      await navigator.clipboard.writeText(text);
      return "copied";
    } catch {
      return "failed";
    }
  };
})();
