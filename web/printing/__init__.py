"""What is printed, as pages of shapes in millimetres, and as PDF files. Nothing here reads or
writes anything but the font.
"""
