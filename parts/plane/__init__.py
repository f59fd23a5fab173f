"""plane"""
