// Photographs made small on the device: upright, at most 1600 px a side, as JPEG, with nothing but the picture in it.
"use strict";

wallseat.photo = (() => {
  const LONGEST = 1600, THUMB = 176, QUALITY = 0.82, MOST_BYTES = 12_000_000;

  function drawn(image, longest) {
    const scale = Math.min(1, longest / Math.max(image.width, image.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(image.width * scale));
    canvas.height = Math.max(1, Math.round(image.height * scale));
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas;
  }

  // {photo: Blob, thumb: data address}. Throws an Error whose message says what to do.
  async function shrink(file) {
    let image;
    try {
      image = await createImageBitmap(file, { imageOrientation: "from-image" });
    } catch {
      if (file.size > MOST_BYTES || !file.size) throw new Error("This file can't be opened as a picture here, and is too large to be sent as it is.");
      return { photo: file, thumb: "" }; // the server may know the kind; it says so if not
    }
    try {
      const photo = await new Promise((resolve) => drawn(image, LONGEST).toBlob(resolve, "image/jpeg", QUALITY));
      if (!photo) throw new Error("This device has no room to make the photograph smaller. Take it at a lower resolution.");
      return { photo, thumb: drawn(image, THUMB).toDataURL("image/jpeg", 0.7) };
    } finally {
      image.close();
    }
  }

  return { shrink };
})();
