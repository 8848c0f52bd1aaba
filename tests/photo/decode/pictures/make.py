"""Makes the pictures beside this file with Pillow 12.3.0: small files of every kind, by an encoder that is not ours.

Four flat quadrants seen upright: red, green / blue, white, 320 by 240. In turned-N the pixels are stored so that
EXIF orientation N (CIPA DC-008) shows them upright. Run in this folder: python3 make.py
"""
from PIL import Image

upright = Image.new("RGB", (320, 240), "white")
for corner, color in (((0, 0), "red"), ((160, 0), "lime"), ((0, 120), "blue")):
    upright.paste(color, (*corner, corner[0] + 160, corner[1] + 120))

# Stored so that the viewer's turn for that orientation undoes it.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def orientation(number):
    exif = Image.Exif()
    exif[0x0112] = number
    return exif


for number, turn in STORED.items():
    stored = upright if turn is None else upright.transpose(turn)
    stored.save(f"turned-{number}.jpg", quality=80, exif=orientation(number))
    stored.save(f"turned-{number}.png", optimize=True, exif=orientation(number))
    stored.save(f"turned-{number}.webp", quality=80, exif=orientation(number))
upright.save("plain.jpg", quality=80)
upright.save("progressive.jpg", quality=80, progressive=True)
upright.save("plain.png")
upright.save("lossy.webp", quality=80)
upright.save("lossless.webp", lossless=True)
upright.save("plain.gif")
upright.save("plain.tif", compression="tiff_lzw")
upright.resize((32, 24)).save("plain.bmp")
upright.save("plain.pdf")
upright.save("plain.avif", quality=60)
upright.resize((4800, 3600)).save("large.png", optimize=True)
upright.resize((100, 75)).save("small.png")
