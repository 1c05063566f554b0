# Invented for this project.
# PD7: IN1
# PD5: IN2
# PD6: IN3
# PD4: IN4
rows = [0x80, 0x20, 0x40, 0x10]
