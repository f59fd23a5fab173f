"""hardware"""
