// Hands a text, and the pictures beside it, to whatever the person shares with; where there is no such thing the text goes to the clipboard.
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

  // All drawings below one another on paper, as one picture.
  async function picture(drawings, paper, name) {
    const finer = 3, edge = 12, boxes = drawings.map(d => d.viewBox.baseVal);
    const canvas = document.createElement("canvas"), pen = canvas.getContext("2d");
    canvas.width = finer * (Math.max(...boxes.map(b => b.width)) + 2 * edge);
    canvas.height = finer * boxes.reduce((sum, b) => sum + b.height + edge, edge);
    pen.fillStyle = paper;
    pen.fillRect(0, 0, canvas.width, canvas.height);
    let down = edge;
    for (const drawing of drawings) {
      const image = new Image(), box = drawing.viewBox.baseVal;
      image.src = alone(drawing);
      await image.decode();
      pen.drawImage(image, finer * edge, finer * down, finer * box.width, finer * box.height);
      down += box.height + edge;
    }
    const blob = await new Promise(done => canvas.toBlob(done, "image/png"));
    return new File([blob], name + ".png", { type: "image/png" });
  }

  // Answers "shared", "left" when the person thought better of it, "copied", or "failed".
  globalThis.gapwrightShare = async (title, text, from, name) => {
    const sheet = document.querySelector(from), data = { title, text };
    if (navigator.share) {
      try {
        const drawings = sheet ? [...sheet.querySelectorAll("svg")] : [];
        if (drawings.length > 0 && navigator.canShare) {
          const files = [await picture(drawings, getComputedStyle(sheet).backgroundColor, name)];
          if (navigator.canShare({ ...data, files })) data.files = files;
        }
      } catch { } // without the picture, then
      try {
        await navigator.share(data);
        return "shared";
      } catch (x) {
        if (x.name === "AbortError") return "left";
      }
    }
    try {
      await navigator.clipboard.writeText(text);
      return "copied";
    } catch {
      return "failed";
    }
  };
})();
