"""chipbreaker"""
